-- Estimates the yearly change of a value by least squares over days, from whole-number sums so that it is exact and the
-- same on every run. A year is 365.25 days.
-- shape: points INTEGER count of days with a value (2 or more), sum_day, sum_value, sum_day_day, sum_day_value INTEGER sums
--   over them of the day number (days since any fixed day), the whole-number value, day x day and day x value
--   -> DOUBLE value units per year
-- absent: null with fewer than two different days
-- throws: an overflow when the sums exceed 38 digits
-- source: Draper 1998, Applied Regression Analysis, 3rd edition, section 1.2 (b1 = Sxy / Sxx), ISBN 978-0-471-17082-2
--   [from memory; checked against lm() of R]
-- example: slope_per_year(3, 1095, 165, 666125, 56575) = -5.0034
create or replace macro slope_per_year(points, sum_day, sum_value, sum_day_day, sum_day_value) as
  365.25
  * cast(cast(points as hugeint) * sum_day_value - cast(sum_day as hugeint) * sum_value as double)
  / nullif(cast(cast(points as hugeint) * sum_day_day - cast(sum_day as hugeint) * sum_day as double), 0);
