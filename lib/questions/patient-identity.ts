import { z } from "zod"

const text = z.string().nullable()
const number = z.number().nullable()
const flag = z.boolean().nullable()

export const PatientIdentity = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  given_name: text,
  family_name: text,
  birth_date: z.string(),
  sex: z.string(),
  site: text,
  clinician_name: text,
  language: text,
  interpreter_needed: z.boolean(),
  registered_on: z.string(),
  left_on: text,
  left_reason: text,
  died_on: text,
  has_merged_records: z.boolean(),
  source: z.string(),
  /** The day after which the time line begins: 36 months before the as-of date. */
  window_after: z.string(),
  age_years: number,
  in_panel: flag,
  panel_reason: text,
  last_visit_on: text,
  /** The row of that visit. */
  last_visit_source: text,
  ckd: flag,
  on_dialysis: flag,
  transplant: flag,
  palliative: flag,
  pregnancy: flag,
  hypertension: flag,
  diabetes: flag,
  heart_failure: flag,
  atrial_fibrillation: flag,
  egfr: number,
  g: text,
  a: text,
  risk_cell: text,
  tests_due: z.number().int().nullable(),
  egfr_days_in_year: z.number().int().nullable(),
  slope: number,
  slope_standard_error: number,
  slope_points: z.number().int().nullable(),
  slope_from: text,
  slope_to: text,
  failure_risk_2_years: number,
  failure_risk_5_years: number,
  risk_acr: number,
  risk_acr_on: text,
  systolic_limit: number,
  diastolic_limit: number,
  potassium: number,
  potassium_comparator: text,
  potassium_on: text,
  next_visit_on: text,
  /** The row of the next visit that is booked. */
  next_visit_source: text,
})

export type PatientIdentity = z.infer<typeof PatientIdentity>

/** Who a person is, and where they stand on one day; the columns of the day are null before they were registered. */
export const patientIdentity = {
  sql: `with last_visits as (
  select v.patient_id, v.started_on as last_visit_on, 'visits:' || v.import_id || ':' || v.line as source,
    row_number() over (partition by v.patient_id order by v.started_on desc, v.import_id, v.line) as place
  from visits_raw as v
  join people on people.patient_id = v.patient_id and people.public_id = cast($public_id as varchar)
  where v.kind in ('office', 'telehealth', 'dialysis') and v.started_on <= cast($as_of as date)
),
booked as (
  select a.patient_id, cast(a.starts_at as date) as day,
    min('appointments:' || a.import_id || ':' || a.line) as source
  from appointments_raw as a
  join people on people.patient_id = a.patient_id and people.public_id = cast($public_id as varchar)
  where a.status = 'booked'
  group by a.patient_id, cast(a.starts_at as date)
)
select
  people.patient_id, people.public_id, people.given_name, people.family_name, people.birth_date, people.sex,
  people.site, people.clinician_name, people.language, people.interpreter_needed,
  people.registered_on, people.left_on, people.left_reason, people.died_on, people.has_merged_records,
  'patients:' || people.import_id || ':' || people.line as source,
  w.confirmation_after as window_after,
  p.age_years, p.in_panel, p.panel_reason,
  last_visits.last_visit_on, last_visits.source as last_visit_source,
  p.ckd, p.on_dialysis, p.transplant, p.palliative, p.pregnancy,
  p.hypertension, p.diabetes, p.heart_failure, p.atrial_fibrillation,
  p.egfr, p.g, p.a, p.risk_cell, p.tests_due, cast(p.egfr_days_in_year as integer) as egfr_days_in_year,
  p.slope, p.slope_standard_error, cast(p.slope_points as integer) as slope_points, p.slope_from, p.slope_to,
  p.failure_risk_2_years, p.failure_risk_5_years, p.risk_acr, p.risk_acr_on,
  p.systolic_limit, p.diastolic_limit,
  p.potassium, p.potassium_comparator, p.potassium_on,
  p.next_visit_on, booked.source as next_visit_source
from people
join as_of_windows as w on w.as_of = cast($as_of as date)
left join last_visits on last_visits.patient_id = people.patient_id and last_visits.place = 1
left join patient_values as p on p.patient_id = people.patient_id and p.as_of = w.as_of
left join booked on booked.patient_id = people.patient_id and booked.day = p.next_visit_on
where people.public_id = cast($public_id as varchar)`,
  Row: PatientIdentity,
} as const
