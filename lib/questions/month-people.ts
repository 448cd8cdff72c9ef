import { z } from "zod"
import { byName, listPerson, listPersonColumns } from "./list-person"

const number = z.number().nullable()
const text = z.string().nullable()

export const MonthPerson = z.object({
  patient_id: z.string(),
  ...listPerson,
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
export const monthPersonColumns = `p.patient_id, ${listPersonColumns},
  p.systolic, p.diastolic, p.bp_source, p.bp_on, p.egfr, p.egfr_on, p.acr, p.acr_comparator, p.acr_on,
  p.potassium, p.potassium_on, p.sodium_mg, p.classes, p.next_visit_on`

/** Everyone in the panel on a day with the values their measures look at, by name. */
export const monthPeople = {
  sql: `
select ${monthPersonColumns}
from patient_month as p
where p.as_of = cast($as_of as date) and p.in_panel
order by ${byName}`,
  Row: MonthPerson,
} as const
