import { z } from "zod"
import type { Measure } from "../measures/types"
import { MonthPerson, monthPersonColumns } from "./month-people"

const text = z.string().nullable()

export const StandingPerson = MonthPerson.extend({
  a: text,
  ras_history: z.string(),
  ras_stopped_on: text,
  ras_stop_reason: text,
  urine_last_on: text,
  reasons: z.array(z.string()),
})

export type StandingPerson = z.infer<typeof StandingPerson>

/** The people of one standing of a measure on one day, with the values and dates that put them there, by name. */
export function standingPeople(measure: Measure) {
  return {
    sql: `select ${monthPersonColumns},
  p.a, p.ras_history, p.ras_stopped_on, p.ras_stop_reason, p.urine_last_on, s.${measure.column}_reasons as reasons
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and s.${measure.column} = cast($standing as varchar)
order by p.family_name, p.given_name, p.patient_id`,
    Row: StandingPerson,
  }
}
