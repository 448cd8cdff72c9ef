-- Which condition groups are active for each patient on each as-of date.
select
  c.patient_id,
  w.as_of,
  bool_or(c.condition = 'ckd') as has_ckd_code,
  bool_or(c.condition = 'ckd_stage_5') as has_ckd_5_code,
  bool_or(c.condition = 'dialysis') as has_dialysis_code,
  bool_or(c.condition = 'transplant') as transplant,
  bool_or(c.condition = 'hypertension') as hypertension,
  min(case when c.condition = 'hypertension' then c.starts_on end) as hypertension_since,
  bool_or(c.condition = 'diabetes') as diabetes,
  bool_or(c.condition = 'type_1_diabetes') as type_1_diabetes,
  bool_or(c.condition = 'heart_failure') as heart_failure,
  bool_or(c.condition = 'atrial_fibrillation') as atrial_fibrillation,
  bool_or(c.condition = 'pregnancy') as pregnancy,
  bool_or(c.condition = 'palliative') as palliative
from condition_spans as c
join as_of_windows as w on c.starts_on <= w.as_of and (c.ends_on is null or c.ends_on > w.as_of)
group by c.patient_id, w.as_of
