-- Every creatinine and reported eGFR with its day and whether it may stage the patient.
with results as (
  select
    f.patient_id,
    cast(f.collected_at as date) as day,
    f.collected_at,
    f.test,
    f.value,
    f.comparator,
    f.value_text,
    f.unit_text,
    f.import_id,
    f.line
  from labs_raw as f
  where f.test in ('creatinine', 'egfr')
),
unstable as (
  select distinct results.import_id, results.line
  from results
  join unstable_spans as u
    on u.patient_id = results.patient_id and results.day >= u.first_day and results.day <= u.last_day
)
select
  results.patient_id,
  results.day,
  results.collected_at,
  results.test,
  results.value,
  results.comparator,
  results.value_text,
  results.unit_text,
  unstable.line is null as is_usable,
  results.import_id,
  results.line
from results
left join unstable on unstable.import_id = results.import_id and unstable.line = results.line
