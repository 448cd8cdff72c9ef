-- All office readings of one patient on one day are one occasion: their mean (or, by setting, their lowest).
with days as (
  select
    r.patient_id,
    r.day,
    cast(count(*) as integer) as readings,
    cast(sum(r.systolic) as double) / count(*) as mean_systolic,
    cast(sum(r.diastolic) as double) / count(*) as mean_diastolic,
    cast(min(r.systolic) as double) as lowest_systolic,
    cast(min(r.diastolic) as double) as lowest_diastolic
  from bp_readings as r
  where r.setting = 'office'
  group by r.patient_id, r.day
)
select
  days.patient_id,
  days.day,
  days.readings,
  case when s.bp_same_day = 'lowest' then days.lowest_systolic else days.mean_systolic end as systolic,
  case when s.bp_same_day = 'lowest' then days.lowest_diastolic else days.mean_diastolic end as diastolic,
  lead(days.day) over (partition by days.patient_id order by days.day) as next_day
from days
cross join settings as s
