-- For the running day what the reasons to contact ask besides the wide row: the counted reading of the last 7 days that
-- reaches 180 or 120, the latest counted reading and visit of all, and the latest start of an ACE inhibitor or ARB in the last
-- 12 months whose 28 days are over and that no potassium (not haemolysed) or no creatinine has followed to this day.
-- source: 180/120 mmHg, Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, section 11.2,
--   doi:10.1161/HYP.0000000000000065 (from memory)
with days as (
  select w.as_of, w.year_after from as_of_windows as w where w.is_running
),
very_high as (
  select
    r.patient_id,
    days.as_of,
    r.day,
    cast(r.systolic as double) as systolic,
    cast(r.diastolic as double) as diastolic,
    row_number() over (
      partition by r.patient_id, days.as_of
      order by r.taken_at desc, r.systolic desc, r.diastolic desc, r.import_id, r.line
    ) as place
  from bp_readings as r
  join days on r.day <= days.as_of and r.day > days.as_of - 7
  where r.is_counted and (r.systolic >= 180 or r.diastolic >= 120)
),
readings as (
  select c.patient_id, days.as_of, max(c.day) as last_reading_on
  from counted_days as c
  join days on c.day <= days.as_of
  group by c.patient_id, days.as_of
),
visits as (
  select v.patient_id, days.as_of, max(v.started_on) as last_visit_on
  from visits_raw as v
  join days on v.started_on <= days.as_of
  where v.kind in ('office', 'telehealth', 'dialysis')
  group by v.patient_id, days.as_of
),
starts as (
  select r.patient_id, days.as_of, max(r.started_on) as started_on
  from ras_starts as r
  join days on r.started_on <= days.as_of - 28 and r.started_on > days.year_after
  group by r.patient_id, days.as_of
),
potassium as (
  select distinct starts.patient_id, starts.as_of
  from starts
  join potassium_results as k on k.patient_id = starts.patient_id and k.day > starts.started_on and k.day <= starts.as_of
  where not k.is_haemolysed
),
creatinine as (
  select distinct starts.patient_id, starts.as_of
  from starts
  join filtration_results as f on f.patient_id = starts.patient_id and f.day > starts.started_on and f.day <= starts.as_of
  where f.test = 'creatinine'
)
select
  d.patient_id,
  d.as_of,
  very_high.day as very_high_on,
  very_high.systolic as very_high_systolic,
  very_high.diastolic as very_high_diastolic,
  readings.last_reading_on,
  visits.last_visit_on,
  case when potassium.patient_id is null or creatinine.patient_id is null then starts.started_on end as unchecked_start_on
from patient_days as d
join days on days.as_of = d.as_of
left join very_high on very_high.patient_id = d.patient_id and very_high.as_of = d.as_of and very_high.place = 1
left join readings on readings.patient_id = d.patient_id and readings.as_of = d.as_of
left join visits on visits.patient_id = d.patient_id and visits.as_of = d.as_of
left join starts on starts.patient_id = d.patient_id and starts.as_of = d.as_of
left join potassium on potassium.patient_id = d.patient_id and potassium.as_of = d.as_of
left join creatinine on creatinine.patient_id = d.patient_id and creatinine.as_of = d.as_of
