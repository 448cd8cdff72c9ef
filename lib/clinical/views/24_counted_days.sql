-- Every day with a counted reading: the lowest single systolic and diastolic of that day, unrounded.
select
  r.patient_id,
  r.day,
  min(r.systolic) as lowest_systolic,
  min(r.diastolic) as lowest_diastolic,
  lead(r.day) over (partition by r.patient_id order by r.day) as next_day
from bp_readings as r
where r.is_counted
group by r.patient_id, r.day
