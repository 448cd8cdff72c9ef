-- Every start of an ACE inhibitor or of an ARB, a switch from one to the other among them, with the first potassium that was not
-- haemolysed and the first creatinine of days 1 to 28.
with starts as (
  select distinct r.patient_id, r.started_on
  from drug_runs as r
  where r.what = 'kind' and r.word in ('ace_inhibitor', 'arb')
),
potassium as (
  select starts.patient_id, starts.started_on, min(k.day) as potassium_on
  from starts
  join potassium_results as k
    on k.patient_id = starts.patient_id and k.day > starts.started_on and k.day <= starts.started_on + 28
  where not k.is_haemolysed
  group by starts.patient_id, starts.started_on
),
creatinine as (
  select starts.patient_id, starts.started_on, min(r.day) as creatinine_on
  from starts
  join filtration_results as r
    on r.patient_id = starts.patient_id and r.day > starts.started_on and r.day <= starts.started_on + 28
  where r.test = 'creatinine'
  group by starts.patient_id, starts.started_on
)
select starts.patient_id, starts.started_on, potassium.potassium_on, creatinine.creatinine_on
from starts
left join potassium on potassium.patient_id = starts.patient_id and potassium.started_on = starts.started_on
left join creatinine on creatinine.patient_id = starts.patient_id and creatinine.started_on = starts.started_on
