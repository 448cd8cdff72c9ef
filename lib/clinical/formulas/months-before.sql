-- Gives the day n calendar months earlier; a day the earlier month does not have becomes that month's last day.
-- shape: on_day DATE, months INTEGER (0 or more) -> DATE
-- absent: null when either is null
-- throws: nothing
-- source: the project's definitions, section on time (31 March minus 1 month is 28 or 29 February)
-- example: months_before(date '2024-03-31', 1) = 2024-02-29
create or replace macro months_before(on_day, months) as cast(on_day - months * interval '1' month as date);
