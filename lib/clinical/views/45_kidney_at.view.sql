-- eGFR, urine category and albuminuria of each patient on each as-of date: the latest, where they are not too old.
with latest as (
  select
    k.*,
    coalesce(k.egfr_on > w.egfr_after, false) as is_egfr_in_window,
    coalesce(k.acr_on > w.urine_after, false) as is_acr_in_window,
    coalesce(k.urine_on > w.urine_after, false) as is_urine_in_window
  from latest_kidney_at as k
  join as_of_windows as w on w.as_of = k.as_of
)
select
  k.patient_id,
  k.as_of,
  case when k.is_egfr_in_window then k.egfr end as egfr,
  case when k.is_egfr_in_window then k.egfr_on end as egfr_on,
  case when k.is_egfr_in_window then k.run_started_on end as run_started_on,
  k.is_egfr_in_window and k.is_egfr_chronic as is_egfr_chronic,
  case when k.is_acr_in_window then k.acr end as acr,
  case when k.is_acr_in_window then k.acr_comparator end as acr_comparator,
  case when k.is_acr_in_window then k.acr_on end as acr_on,
  k.acr_on as acr_last_on,
  case when k.is_urine_in_window then k.a end as a,
  case when k.is_urine_in_window then k.urine_on end as urine_on,
  case when k.is_urine_in_window then k.urine_test end as urine_test,
  k.urine_on as urine_last_on,
  case when k.is_urine_in_window then k.albuminuria else 'unknown' end as albuminuria
from latest as k
