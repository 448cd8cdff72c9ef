-- What began, ended or is not tolerated, for every person on every as-of date.
-- A view, read once by `patient_values`.
select
  d.patient_id,
  d.as_of,
  plans.plan_on,
  withdrawals.withdrawal,
  withdrawals.untapered_stop_on,
  class_stops.are_stops_followed,
  starts.are_ras_starts_checked,
  starts.ras_start_checked_days,
  rises.patient_id is not null as has_creatinine_rise,
  coalesce(intolerance.has_ras_angioedema, false) as has_ras_angioedema,
  coalesce(intolerance.is_intolerant_to_both, false) as is_intolerant_to_ras
from patient_days as d
left join plans_at as plans on plans.patient_id = d.patient_id and plans.as_of = d.as_of
left join withdrawals_at as withdrawals
  on withdrawals.patient_id = d.patient_id and withdrawals.as_of = d.as_of
left join class_stops_at as class_stops on class_stops.patient_id = d.patient_id and class_stops.as_of = d.as_of
left join ras_starts_at as starts on starts.patient_id = d.patient_id and starts.as_of = d.as_of
left join ras_creatinine_rises_at as rises on rises.patient_id = d.patient_id and rises.as_of = d.as_of
left join ras_intolerance_at as intolerance
  on intolerance.patient_id = d.patient_id and intolerance.as_of = d.as_of
