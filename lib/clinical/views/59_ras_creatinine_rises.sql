-- Every creatinine, in any setting, of days 1 to 28 after the start of an ACE inhibitor or ARB that is more than 30% above the
-- baseline: the latest creatinine of the 90 days up to the start, the day of the start included, that is usable for staging.
-- source: KDIGO 2024 CKD guideline, Kidney Int 105(4S):S117-S314, section 3.6 (continue unless creatinine rises by more than 30%
-- within 4 weeks), doi:10.1016/j.kint.2023.10.018; the 90 days are common practice, no source
with earlier as (
  select
    s.patient_id,
    s.started_on,
    r.value as baseline,
    r.day as baseline_on,
    r.import_id as baseline_import_id,
    r.line as baseline_line,
    row_number() over (
      partition by s.patient_id, s.started_on order by r.collected_at desc, r.value desc, r.import_id, r.line
    ) as place
  from ras_starts as s
  join filtration_results as r
    on r.patient_id = s.patient_id and r.day <= s.started_on and r.day > s.started_on - 90
  where r.test = 'creatinine' and r.is_usable
)
select
  earlier.patient_id,
  earlier.started_on,
  earlier.baseline,
  earlier.baseline_on,
  earlier.baseline_import_id,
  earlier.baseline_line,
  r.day,
  r.value,
  r.comparator,
  r.import_id,
  r.line
from earlier
join filtration_results as r
  on r.patient_id = earlier.patient_id and r.day > earlier.started_on and r.day <= earlier.started_on + 28
where earlier.place = 1 and r.test = 'creatinine' and exceeds(r.value * 10, r.comparator, earlier.baseline * 13)
