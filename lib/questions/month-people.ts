import { z } from "zod"

const number = z.number().nullable()
const text = z.string().nullable()

export const MonthPerson = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number().int(),
  site: text,
  clinician_name: text,
  systolic: number,
  diastolic: number,
  bp_source: text,
  bp_on: text,
  egfr: number,
  egfr_on: text,
  acr: number,
  acr_comparator: text,
  acr_on: text,
  potassium: number,
  potassium_on: text,
  sodium_mg: number,
  classes: z.array(z.string()),
  next_visit_on: text,
})

export type MonthPerson = z.infer<typeof MonthPerson>

/** The columns of `MonthPerson`, of a row `p` of `patient_month`. */
export const monthPersonColumns = `p.patient_id, p.public_id, p.given_name, p.family_name, p.age_years, p.site,
  p.clinician_name, p.systolic, p.diastolic, p.bp_source, p.bp_on, p.egfr, p.egfr_on, p.acr, p.acr_comparator, p.acr_on,
  p.potassium, p.potassium_on, p.sodium_mg, p.classes, p.next_visit_on`

/** Everyone in the panel on a day with the values their measures look at, by name. */
export const monthPeople = {
  sql: `
select ${monthPersonColumns}
from patient_month as p
where p.as_of = cast($as_of as date) and p.in_panel
order by lower(p.family_name), lower(p.given_name), p.patient_id`,
  Row: MonthPerson,
} as const
