-- The pressure of each patient on each as-of date, the one that represented them three months before,
-- and the latest day with any counted reading.
with counted as (
  -- Joined to the few days first: joined to every patient and day at once it would be held against each of them.
  select c.patient_id, w.as_of, c.day, c.lowest_systolic, c.lowest_diastolic
  from counted_days as c
  join as_of_windows as w
    on c.day <= w.as_of and c.day > w.year_after and (c.next_day is null or c.next_day > w.as_of)
)
select
  d.patient_id,
  d.as_of,
  p.systolic,
  p.diastolic,
  p.bp_source,
  p.bp_on,
  p.bp_readings,
  p.category,
  p.systolic_limit,
  p.diastolic_limit,
  p.at_target,
  p.office_systolic,
  p.office_diastolic,
  p.office_on,
  p.home_systolic,
  p.home_diastolic,
  p.home_on,
  p.ambulatory_systolic,
  p.ambulatory_diastolic,
  p.ambulatory_on,
  earlier.systolic as quarter_ago_systolic,
  earlier.diastolic as quarter_ago_diastolic,
  earlier.bp_source as quarter_ago_bp_source,
  earlier.bp_on as quarter_ago_bp_on,
  earlier.at_target as quarter_ago_at_target,
  counted.day as counted_day,
  cast(counted.lowest_systolic as double) as counted_lowest_systolic,
  cast(counted.lowest_diastolic as double) as counted_lowest_diastolic
from patient_days as d
join as_of_windows as w on w.as_of = d.as_of
left join pressure_on as p on p.patient_id = d.patient_id and p.day = d.as_of
left join pressure_on as earlier on earlier.patient_id = d.patient_id and earlier.day = w.quarter_after
left join counted on counted.patient_id = d.patient_id and counted.as_of = d.as_of
