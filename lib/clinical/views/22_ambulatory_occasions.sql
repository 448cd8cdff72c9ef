-- One row is one 24-hour mean; several on one day: their mean.
select
  r.patient_id,
  r.day,
  cast(count(*) as integer) as readings,
  cast(sum(r.systolic) as double) / count(*) as systolic,
  cast(sum(r.diastolic) as double) / count(*) as diastolic,
  lead(r.day) over (partition by r.patient_id order by r.day) as next_day
from bp_readings as r
where r.setting = 'ambulatory'
group by r.patient_id, r.day
