import { z } from "zod"
import { byName, listPerson, listPersonColumns } from "./list-person"
import { ownPeopleSteps } from "./own-people"
import { urgentStep } from "./urgent-now"

const text = z.string().nullable()
const number = z.number().nullable()

export const OwnUrgent = z.object({
  ...listPerson,
  next_visit_on: text,
  reason: z.string(),
  fact_on: text,
  value: number,
  second_value: number,
  comparator: text,
})

export type OwnUrgent = z.infer<typeof OwnUrgent>

/** What is urgent about a clinician's people on the running day, the latest fact first, a row a reason. */
export const ownUrgent = {
  sql: `with${ownPeopleSteps},${urgentStep}
select
  ${listPersonColumns}, p.next_visit_on,
  u.reason, u.fact_on, u.value, u.second_value, u.comparator
from urgent as u
join own on own.patient_id = u.patient_id
join patient_month as p on p.patient_id = u.patient_id and p.as_of = cast($as_of as date)
order by u.fact_on desc, ${byName}, u.place`,
  Row: OwnUrgent,
} as const
