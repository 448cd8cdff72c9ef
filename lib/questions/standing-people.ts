import { z } from "zod"
import type { Measure } from "../measures/types"

const number = z.number().nullable()
const text = z.string().nullable()

export const StandingPerson = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number(),
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
  a: text,
  classes: z.array(z.string()),
  ras_history: z.string(),
  ras_stopped_on: text,
  ras_stop_reason: text,
  potassium: number,
  potassium_on: text,
  sodium_mg: number,
  urine_last_on: text,
  next_visit_on: text,
  reasons: z.array(z.string()),
})

export type StandingPerson = z.infer<typeof StandingPerson>

/** The people of one standing of a measure on one day, with the values and dates that put them there, by name. */
export function standingPeople(measure: Measure) {
  return {
    sql: `select
  p.patient_id, p.public_id, p.given_name, p.family_name, p.age_years, p.site, p.clinician_name,
  p.systolic, p.diastolic, p.bp_source, p.bp_on, p.egfr, p.egfr_on, p.acr, p.acr_comparator, p.acr_on, p.a, p.classes,
  p.ras_history, p.ras_stopped_on, p.ras_stop_reason, p.potassium, p.potassium_on, p.sodium_mg, p.urine_last_on,
  p.next_visit_on, s.${measure.column}_reasons as reasons
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and s.${measure.column} = cast($standing as varchar)
order by p.family_name, p.given_name, p.patient_id`,
    Row: StandingPerson,
  }
}
