-- A home average may end on any day with a home reading: the mean of all home readings of the window up to that day.
-- Days are counted as whole numbers so that one window frame serves in every engine.
with days as (
  select
    r.patient_id,
    r.day,
    date_diff('day', date '1970-01-01', r.day) as day_number,
    count(*) as readings,
    sum(r.systolic) as systolic_sum,
    sum(r.diastolic) as diastolic_sum
  from bp_readings as r
  where r.setting = 'home'
  group by r.patient_id, r.day
),
windows as (
  select
    days.patient_id,
    days.day,
    sum(days.readings) over recent as readings,
    count(*) over recent as days,
    sum(days.systolic_sum) over recent as systolic_sum,
    sum(days.diastolic_sum) over recent as diastolic_sum
  from days
  cross join settings as s
  window recent as (
    partition by days.patient_id order by days.day_number
    range between (s.bp_home_window_days - 1) preceding and current row
  )
)
select
  windows.patient_id,
  windows.day,
  cast(windows.readings as integer) as readings,
  cast(windows.days as integer) as days,
  cast(windows.systolic_sum as double) / windows.readings as systolic,
  cast(windows.diastolic_sum as double) / windows.readings as diastolic,
  windows.readings >= s.bp_home_min_readings and windows.days >= s.bp_home_min_days as is_valid
from windows
cross join settings as s
