-- The slope of the rounded eGFR over the last 24 months, by least squares from whole-number sums: at least 4 days with a value,
-- the first of them a year or more before the last.
with sums as (
  select
    e.patient_id,
    w.as_of,
    count(*) as points,
    min(e.day) as first_on,
    max(e.day) as last_on,
    sum(date_diff('day', date '1970-01-01', e.day)) as sum_day,
    sum(e.egfr) as sum_value,
    sum(date_diff('day', date '1970-01-01', e.day) * date_diff('day', date '1970-01-01', e.day)) as sum_day_day,
    sum(date_diff('day', date '1970-01-01', e.day) * e.egfr) as sum_day_value,
    sum(e.egfr * e.egfr) as sum_value_value
  from egfr_days as e
  join as_of_windows as w on e.day <= w.as_of and e.day > w.slope_after
  group by e.patient_id, w.as_of
)
select
  sums.patient_id,
  sums.as_of,
  cast(sums.points as integer) as slope_points,
  sums.first_on as slope_from,
  sums.last_on as slope_to,
  slope_per_year(sums.points, sums.sum_day, sums.sum_value, sums.sum_day_day, sums.sum_day_value) as slope,
  slope_standard_error(
    sums.points, sums.sum_day, sums.sum_value, sums.sum_day_day, sums.sum_day_value, sums.sum_value_value
  ) as slope_standard_error
from sums
where sums.points >= 4 and sums.first_on <= months_before(sums.last_on, 12)
