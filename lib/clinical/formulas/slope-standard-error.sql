-- Estimates the standard error of the slope that slope_per_year gives, from the same whole-number sums.
-- shape: points INTEGER count of days with a value (3 or more), sum_day, sum_value, sum_day_day, sum_day_value,
--   sum_value_value INTEGER sums over them -> DOUBLE value units per year
-- absent: null with fewer than three points or fewer than two different days
-- throws: an overflow when the sums exceed 38 digits
-- source: Draper 1998, Applied Regression Analysis, 3rd edition, section 1.4 (standard error of b1), ISBN 978-0-471-17082-2
--   [from memory; checked against lm() of R]
-- example: slope_standard_error(4, 2190, 217, 1865150, 111325, 11865) = 0.9334
create or replace macro slope_standard_error(points, sum_day, sum_value, sum_day_day, sum_day_value, sum_value_value) as
  case
    when points >= 3 then
      365.25
      * sqrt(
        greatest(
          cast(
            (cast(points as hugeint) * sum_value_value - cast(sum_value as hugeint) * sum_value)
            * (cast(points as hugeint) * sum_day_day - cast(sum_day as hugeint) * sum_day)
            - (cast(points as hugeint) * sum_day_value - cast(sum_day as hugeint) * sum_value)
            * (cast(points as hugeint) * sum_day_value - cast(sum_day as hugeint) * sum_value)
            as double),
          0)
        / (points - 2)
      )
      / nullif(cast(cast(points as hugeint) * sum_day_day - cast(sum_day as hugeint) * sum_day as double), 0)
  end;
