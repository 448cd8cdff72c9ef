-- Readings, on the person's own count of days. The time of day is left out; what was measured one after the other on a day
-- is a minute apart from noon on, so that its order stays.
with placed as (
  select
    r.patient_id,
    cast(r.taken_at as date) as day,
    dense_rank() over (partition by r.patient_id, cast(r.taken_at as date) order by r.taken_at) as place,
    row_number() over (partition by r.patient_id order by r.taken_at, r.import_id, r.line) as number,
    r.systolic,
    r.diastolic,
    r.setting,
    r.pulse
  from readings_raw as r
)
select
  lines.code as patient_id,
  strftime(
    cast(greatest(lines.born, placed.day - lines.shift_days) as timestamp)
      + to_minutes(719 + least(placed.place, 700)),
    '%Y-%m-%dT%H:%M'
  ) as taken_at,
  format('{:.10g}', cast(placed.systolic as double)) as systolic,
  format('{:.10g}', cast(placed.diastolic as double)) as diastolic,
  placed.setting,
  format('{:.10g}', cast(placed.pulse as double)) as pulse,
  lines.code || '-R' || placed.number as reading_id
from placed
join lines on lines.patient_id = placed.patient_id
order by lines.code, placed.number
