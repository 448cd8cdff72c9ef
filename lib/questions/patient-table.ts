import { cautionsSql } from "../measures/cautions"
import { measures } from "../measures/index"

/** The fixed columns with their types; after them come the standings, one text column a measure. */
export const panelColumns = {
  public_id: "text",
  patient_id: "text",
  family_name: "text",
  given_name: "text",
  age_years: "integer",
  age_band: "text",
  sex: "text",
  site: "text",
  clinician_name: "text",
  systolic: "integer",
  diastolic: "integer",
  bp_source: "text",
  bp_on: "text",
  category: "text",
  pressure: "text",
  egfr: "integer",
  egfr_on: "text",
  g: "text",
  acr: "number",
  acr_comparator: "text",
  acr_on: "text",
  a: "text",
  albuminuria: "text",
  risk_cell: "text",
  kidney: "text",
  kidney_known: "boolean",
  is_urine_tested_in_year: "boolean",
  has_diet_record_in_year: "boolean",
  class_count: "integer",
  classes: "list",
  class_band: "text",
  ras_history: "text",
  ras_stopped_on: "text",
  potassium: "number",
  potassium_comparator: "text",
  potassium_on: "text",
  sodium_mg: "number",
  sodium_on: "text",
  next_visit_on: "text",
  failure_risk_2_years: "number",
  slope: "number",
  cautions: "list",
  has_potassium_diet_flag: "boolean",
} as const

const standingColumns = Object.fromEntries(measures.map((measure) => [measure.column, "text"] as const))

/**
 * The whole panel of one as-of date as one wide table, for the Patients screen. The words it filters by are columns:
 * where the pressure stands, the band of classes, the state of the kidneys.
 */
export const patientTable = {
  sql: `select
  p.public_id, p.patient_id,
  coalesce(p.family_name, '') as family_name, coalesce(p.given_name, '') as given_name,
  p.age_years, p.age_band, p.sex, p.site, p.clinician_name,
  p.systolic, p.diastolic, p.bp_source, cast(p.bp_on as varchar) as bp_on, p.category,
  case when p.systolic is null then 'not measured' when p.at_target then 'at target' else 'above target' end as pressure,
  p.egfr, cast(p.egfr_on as varchar) as egfr_on, p.g,
  p.acr, p.acr_comparator, cast(p.acr_on as varchar) as acr_on, p.a, p.albuminuria, p.risk_cell,
  case
    when p.on_dialysis then 'dialysis' when p.transplant then 'transplant' when p.ckd then 'ckd' else 'none'
  end as kidney,
  p.kidney_known, p.is_urine_tested_in_year, p.has_diet_record_in_year,
  p.class_count, p.classes,
  case when p.class_count = 0 then '0' when p.class_count < 3 then '1 or 2' else '3 or more' end as class_band,
  p.ras_history, cast(p.ras_stopped_on as varchar) as ras_stopped_on,
  p.potassium, p.potassium_comparator, cast(p.potassium_on as varchar) as potassium_on,
  p.sodium_mg, cast(p.sodium_on as varchar) as sodium_on, cast(p.next_visit_on as varchar) as next_visit_on,
  p.failure_risk_2_years, p.slope,
  ${cautionsSql()} as cautions, p.has_potassium_diet_flag,
  ${measures.map((measure) => `s.${measure.column}`).join(", ")}
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date)
order by p.family_name, p.given_name, p.patient_id`,
  columns: { ...panelColumns, ...standingColumns },
} as const
