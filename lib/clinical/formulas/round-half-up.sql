-- Rounds to the nearest whole number, halves upwards (never to even), which is how every reported value is rounded.
-- shape: x a number of any unit -> the whole number as a number of the same unit
-- absent: null when x is null
-- throws: nothing
-- source: the project's definitions, section on reproducibility (half up means floor(x + 0.5))
-- example: round_half_up(129.5) = 130
create or replace macro round_half_up(x) as floor(x + 0.5);
