import { z } from "zod"
import { standings } from "../domain/standings"

export const TriedPerson = z.object({
  measure_id: z.string(),
  patient_id: z.string(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  now: z.enum(standings),
  then: z.enum(standings),
})

export type TriedPerson = z.infer<typeof TriedPerson>

/** Who would stand elsewhere under the settings that are tried, by measure and name, the first `$limit` of each; asked within `whatIf`. */
export const triedPeople = {
  sql: `
with numbered as (
  select
    m.measure_id, m.patient_id, people.public_id, people.given_name, people.family_name, m."now", m."then",
    row_number() over (
      partition by m.measure_id
      order by lower(people.family_name), lower(people.given_name), m.patient_id
    ) as place
  from tried_moves as m
  join people on people.patient_id = m.patient_id
)
select n.measure_id, n.patient_id, n.public_id, n.given_name, n.family_name, n."now", n."then"
from numbered as n
where n.place <= cast($limit as integer)
order by n.measure_id, n.place`,
  Row: TriedPerson,
} as const
