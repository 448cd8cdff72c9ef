-- What every person takes on every as-of date, and the latest RAS blocker that was stopped.
-- A view, read once by `patient_values`.
select
  d.patient_id,
  d.as_of,
  drugs.class_set,
  drugs.kind_set,
  drugs.newest_class_on,
  drugs.on_ras_blocker,
  drugs.on_any_ras_blocker,
  drugs.has_two_ras_kinds,
  drugs.on_steroidal_mra,
  drugs.on_diuretic,
  drugs.on_calcium_channel_blocker,
  regimens.classes_at_half,
  regimens.classes_at_maximum,
  regimens.classes_below_half,
  regimens.classes_dose_unknown,
  regimens.supply_gap_days,
  other_drugs.on_finerenone,
  other_drugs.on_sglt2_inhibitor,
  other_drugs.on_interfering_drug,
  dual_ras.patient_id is not null as has_dual_ras_blockade,
  history.ras_stopped_drug,
  history.ras_stopped_on,
  history.ras_stop_reason
from patient_days as d
left join drugs_at as drugs on drugs.patient_id = d.patient_id and drugs.as_of = d.as_of
left join regimens_at as regimens on regimens.patient_id = d.patient_id and regimens.as_of = d.as_of
left join other_drugs_at as other_drugs on other_drugs.patient_id = d.patient_id and other_drugs.as_of = d.as_of
left join dual_ras_at as dual_ras on dual_ras.patient_id = d.patient_id and dual_ras.as_of = d.as_of
left join ras_history_at as history on history.patient_id = d.patient_id and history.as_of = d.as_of
