-- Tells whether a laboratory value that may carry a comparator is at least a limit: '<' compares as just below its number,
-- '>' as just above; '<=' and '>=' compare as the number.
-- shape: amount and threshold numbers in one unit, comparator '<', '<=', '>', '>=' or null -> BOOLEAN
-- absent: null when the amount is null
-- throws: nothing
-- source: the project's definitions, section on time and comparators; common practice, no source
-- example: reaches(200, '<', 200) = false
create or replace macro reaches(amount, comparator, threshold) as
  amount > threshold or (amount = threshold and coalesce(comparator <> '<', true));
