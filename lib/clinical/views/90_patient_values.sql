-- Every clinical value of every person on every as-of date, as stored; `patient_month` adds who the person is.
-- Tables that know only some of the people are joined in a few narrow groups, each with a row for everybody, and the groups
-- at the end: joined one after the other to the whole row, they cost half as much again.
with kidney as (
  select
    k.*,
    egfr_category(k.egfr) as g,
    k.is_egfr_chronic or k.albuminuria = 'confirmed' as has_chronic_findings,
    tests.egfr_tested_on,
    tests.egfr_days_in_year,
    slopes.slope,
    slopes.slope_standard_error,
    slopes.slope_points,
    slopes.slope_from,
    slopes.slope_to,
    risk.risk_acr,
    risk.risk_acr_on,
    risk.failure_risk_2_years,
    risk.failure_risk_5_years,
    potassium.potassium,
    potassium.potassium_comparator,
    potassium.potassium_on,
    potassium.is_potassium_high
  from kidney_at as k
  left join egfr_tests_at as tests on tests.patient_id = k.patient_id and tests.as_of = k.as_of
  left join slopes_at as slopes on slopes.patient_id = k.patient_id and slopes.as_of = k.as_of
  left join failure_risk_at as risk
    on risk.patient_id = k.patient_id and risk.as_of = k.as_of and risk.egfr_on = k.egfr_on
  left join potassium_at as potassium on potassium.patient_id = k.patient_id and potassium.as_of = k.as_of
),
diet as (
  select
    d.patient_id,
    d.as_of,
    diet.sodium_mg,
    diet.potassium_mg,
    diet.sodium_series,
    diet.sodium_on,
    diet.sodium_records,
    diet.sodium_in_year_mg,
    diet.sodium_in_year_series,
    diet.sodium_in_year_on,
    diet.sodium_in_year_records,
    diet_last.diet_last_on,
    dietitian.dietitian_seen_on
  from patient_days as d
  left join diet_at as diet on diet.patient_id = d.patient_id and diet.as_of = d.as_of
  left join diet_last_at as diet_last on diet_last.patient_id = d.patient_id and diet_last.as_of = d.as_of
  left join dietitian_visits_at as dietitian on dietitian.patient_id = d.patient_id and dietitian.as_of = d.as_of
),
-- What problems, visits and decisions say.
course as (
  select
    d.patient_id,
    d.as_of,
    home_last.home_average_on,
    coalesce(c.has_ckd_code, false) as has_ckd_code,
    coalesce(c.has_ckd_5_code, false) as has_ckd_5_code,
    coalesce(c.has_dialysis_code, false) or dialysis_visits.patient_id is not null as on_dialysis,
    coalesce(c.transplant, false) as transplant,
    coalesce(c.palliative, false) as palliative,
    coalesce(c.pregnancy, false) as pregnancy,
    coalesce(c.hypertension, false) as hypertension,
    c.hypertension_since,
    coalesce(c.diabetes, false) as diabetes,
    coalesce(c.type_1_diabetes, false) as type_1_diabetes,
    coalesce(c.heart_failure, false) as heart_failure,
    coalesce(c.atrial_fibrillation, false) as atrial_fibrillation,
    decided.bp_decision,
    decided.ras_decision,
    decided.sglt2_decision,
    decided.diet_decision,
    next_visits.next_visit_on
  from patient_days as d
  left join home_average_last_at as home_last on home_last.patient_id = d.patient_id and home_last.as_of = d.as_of
  left join conditions_at as c on c.patient_id = d.patient_id and c.as_of = d.as_of
  left join dialysis_visits_at as dialysis_visits
    on dialysis_visits.patient_id = d.patient_id and dialysis_visits.as_of = d.as_of
  left join decisions_at as decided on decided.patient_id = d.patient_id and decided.as_of = d.as_of
  left join next_visits_at as next_visits on next_visits.patient_id = d.patient_id and next_visits.as_of = d.as_of
)
select
  d.patient_id,
  d.as_of,
  d.month,
  d.is_running,
  d.in_panel,
  d.panel_reason,
  d.age_years,
  case
    when d.age_years < 18 then 'under 18'
    when d.age_years < 45 then '18 to 44'
    when d.age_years < 65 then '45 to 64'
    when d.age_years < 75 then '65 to 74'
    when d.age_years < 85 then '75 to 84'
    else '85 and over'
  end as age_band,
  pressure.systolic,
  pressure.diastolic,
  pressure.bp_source,
  pressure.bp_on,
  pressure.bp_readings,
  pressure.category,
  pressure.systolic_limit,
  pressure.diastolic_limit,
  pressure.at_target,
  pressure.office_systolic,
  pressure.office_diastolic,
  pressure.office_on,
  pressure.home_systolic,
  pressure.home_diastolic,
  pressure.home_on,
  pressure.ambulatory_systolic,
  pressure.ambulatory_diastolic,
  pressure.ambulatory_on,
  pressure.quarter_ago_systolic,
  pressure.quarter_ago_diastolic,
  pressure.quarter_ago_bp_source,
  pressure.quarter_ago_bp_on,
  pressure.quarter_ago_at_target,
  pressure.counted_day,
  pressure.counted_lowest_systolic,
  pressure.counted_lowest_diastolic,
  course.home_average_on,
  coalesce(course.home_average_on > w.year_after, false) as has_home_average_in_year,
  drugs.class_set,
  drugs.kind_set,
  drugs.newest_class_on,
  changes.plan_on,
  changes.withdrawal,
  changes.untapered_stop_on,
  changes.are_stops_followed,
  changes.are_ras_starts_checked,
  changes.ras_start_checked_days,
  coalesce(drugs.on_ras_blocker, false) as on_ras_blocker,
  coalesce(drugs.on_any_ras_blocker, false) as on_any_ras_blocker,
  coalesce(drugs.has_two_ras_kinds, false) as has_two_ras_kinds,
  coalesce(drugs.on_steroidal_mra, false) as on_steroidal_mra,
  coalesce(drugs.on_diuretic, false) as on_diuretic,
  coalesce(drugs.on_calcium_channel_blocker, false) as on_calcium_channel_blocker,
  drugs.classes_at_half,
  drugs.classes_at_maximum,
  drugs.classes_below_half,
  drugs.classes_dose_unknown,
  drugs.supply_gap_days,
  coalesce(drugs.on_finerenone, false) as on_finerenone,
  coalesce(drugs.on_sglt2_inhibitor, false) as on_sglt2_inhibitor,
  coalesce(drugs.on_interfering_drug, false) as on_interfering_drug,
  drugs.has_dual_ras_blockade,
  changes.has_creatinine_rise,
  case
    when coalesce(drugs.on_ras_blocker, false) then 'on'
    when drugs.ras_stopped_on is not null then 'stopped'
    else 'never'
  end as ras_history,
  case when not coalesce(drugs.on_ras_blocker, false) then drugs.ras_stopped_drug end as ras_stopped_drug,
  case when not coalesce(drugs.on_ras_blocker, false) then drugs.ras_stopped_on end as ras_stopped_on,
  case when not coalesce(drugs.on_ras_blocker, false) then drugs.ras_stop_reason end as ras_stop_reason,
  kidney.egfr,
  kidney.egfr_on,
  kidney.run_started_on as egfr_run_started_on,
  kidney.g,
  kidney.acr,
  kidney.acr_comparator,
  kidney.acr_on,
  coalesce(reaches(kidney.acr, kidney.acr_comparator, 200), false) as is_acr_200,
  kidney.acr_last_on,
  kidney.a,
  kidney.urine_on,
  kidney.urine_test,
  kidney.urine_last_on,
  kidney.albuminuria,
  kidney.has_chronic_findings or course.has_ckd_code or course.on_dialysis or course.transplant as ckd,
  kidney.egfr is not null or course.has_ckd_code or course.on_dialysis or course.transplant
    or kidney.albuminuria = 'confirmed' as kidney_known,
  risk_cell(kidney.g, kidney.a) as risk_cell,
  yearly_tests(kidney.g, kidney.a) as tests_due,
  kidney.egfr_tested_on,
  coalesce(kidney.egfr_days_in_year, 0) as egfr_days_in_year,
  coalesce(kidney.egfr_days_in_year > 0, false) as has_egfr_in_year,
  coalesce(kidney.acr_last_on > w.year_after, false) as has_acr_in_year,
  kidney.slope,
  kidney.slope_standard_error,
  kidney.slope_points,
  kidney.slope_from,
  kidney.slope_to,
  kidney.risk_acr,
  kidney.risk_acr_on,
  kidney.failure_risk_2_years,
  kidney.failure_risk_5_years,
  kidney.potassium,
  kidney.potassium_comparator,
  kidney.potassium_on,
  coalesce(kidney.potassium_on > w.year_after, false) as has_potassium_in_year,
  coalesce(kidney.is_potassium_high, false) as is_potassium_high,
  coalesce(kidney.is_potassium_high and kidney.potassium_on > w.last_90_days_after, false) as is_potassium_high_lately,
  coalesce(kidney.is_potassium_high and kidney.potassium_on > w.last_90_days_after, false) as has_potassium_diet_flag,
  coalesce(pressure.systolic < s.bp_low_systolic, false) as is_pressure_low,
  coalesce(pressure.systolic < s.bp_low_systolic and pressure.bp_on > w.last_90_days_after, false) as is_pressure_low_lately,
  changes.has_ras_angioedema,
  changes.is_intolerant_to_ras,
  course.on_dialysis,
  course.transplant,
  course.palliative,
  course.pregnancy,
  course.has_ckd_5_code,
  course.hypertension,
  course.hypertension_since,
  coalesce(course.hypertension_since <= w.half_year_after, false) as hypertension_for_half_year,
  course.diabetes,
  course.type_1_diabetes,
  course.heart_failure,
  course.atrial_fibrillation,
  coalesce(kidney.urine_last_on > w.year_after, false) as is_urine_tested_in_year,
  diet.sodium_mg,
  diet.potassium_mg,
  diet.sodium_series,
  diet.sodium_on,
  diet.sodium_records,
  diet.sodium_in_year_mg,
  diet.sodium_in_year_series,
  diet.sodium_in_year_on,
  diet.sodium_in_year_records,
  diet.diet_last_on,
  coalesce(diet.diet_last_on > w.year_after, false) as has_diet_record_in_year,
  course.bp_decision,
  course.ras_decision,
  course.sglt2_decision,
  course.diet_decision,
  diet.dietitian_seen_on,
  coalesce(diet.dietitian_seen_on > w.year_after, false) as is_seen_by_dietitian_in_year,
  course.next_visit_on
from patient_days as d
cross join settings as s
join as_of_windows as w on w.as_of = d.as_of
join pressure_at as pressure on pressure.patient_id = d.patient_id and pressure.as_of = d.as_of
join kidney on kidney.patient_id = d.patient_id and kidney.as_of = d.as_of
join drug_values as drugs on drugs.patient_id = d.patient_id and drugs.as_of = d.as_of
join drug_changes as changes on changes.patient_id = d.patient_id and changes.as_of = d.as_of
join diet on diet.patient_id = d.patient_id and diet.as_of = d.as_of
join course on course.patient_id = d.patient_id and course.as_of = d.as_of
