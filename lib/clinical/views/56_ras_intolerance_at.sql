-- What those records mean on each as-of date.
select
  r.patient_id,
  w.as_of,
  bool_or(r.is_angioedema) as has_ras_angioedema,
  bool_or(r.kind = 'ace_inhibitor') and bool_or(r.kind = 'arb') as is_intolerant_to_both
from ras_intolerance as r
join as_of_windows as w on r.starts_on <= w.as_of
group by r.patient_id, w.as_of
