-- The same, with the kidney's findings that the tried windows choose among the latest results.
with latest as (
  select
    v.*,
    coalesce(v.last_egfr_on > w.egfr_after, false) as is_egfr_in_window,
    coalesce(v.last_urine_on > w.urine_after, false) as is_urine_in_window,
    coalesce(v.last_acr_on > w.urine_after, false) as is_acr_in_window,
    coalesce(v.last_egfr_on > least(w.egfr_after, kept.egfr_after), false)
        and v.last_egfr_on <= greatest(w.egfr_after, kept.egfr_after)
      or coalesce(v.last_urine_on > least(w.urine_after, kept.urine_after), false)
        and v.last_urine_on <= greatest(w.urine_after, kept.urine_after)
      or coalesce(v.last_acr_on > least(w.urine_after, kept.urine_after), false)
        and v.last_acr_on <= greatest(w.urine_after, kept.urine_after)
      or coalesce(v.last_a_kdigo <> v.last_a_ada, false) as is_other_kidney,
    case s.acr_a3 when 'ada' then v.last_a_ada else v.last_a_kdigo end as last_a
  from tried_sodium as v
  join as_of_windows as w on w.as_of = v.as_of
  join kept_windows as kept on kept.as_of = v.as_of
  cross join settings as s
),
found as (
  select
    v.* replace (case when v.is_urine_in_window then v.last_a end as a),
    case when v.is_egfr_in_window then v.last_egfr end as egfr,
    case when v.is_egfr_in_window then v.last_failure_risk_2_years end as failure_risk_2_years,
    case when v.is_urine_in_window then v.last_urine_on end as urine_on,
    case when v.is_urine_in_window then v.last_albuminuria else 'unknown' end as albuminuria,
    v.is_acr_in_window and v.is_last_acr_200 as is_acr_200
  from latest as v
)
select
  v.*,
  (v.is_egfr_in_window and v.is_last_egfr_chronic) or v.albuminuria = 'confirmed' or v.has_ckd_on_record as ckd,
  risk_cell(egfr_category(v.egfr), v.a) as risk_cell,
  yearly_tests(egfr_category(v.egfr), v.a) as tests_due
from found as v
