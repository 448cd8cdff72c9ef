-- Tells whether a laboratory value that may carry a comparator lies above a limit: '>' compares as just above its number,
-- '<' as just below; '>=' and '<=' compare as the number.
-- shape: amount and threshold numbers in one unit, comparator '<', '<=', '>', '>=' or null -> BOOLEAN
-- absent: null when the amount is null
-- throws: nothing
-- source: the project's definitions, section on time and comparators; common practice, no source
-- example: exceeds(5.5, '>', 5.5) = true
create or replace macro exceeds(amount, comparator, threshold) as
  amount > threshold or (amount = threshold and coalesce(comparator = '>', false))
