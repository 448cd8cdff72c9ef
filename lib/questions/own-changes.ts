import { z } from "zod"
import { changeCauses } from "../domain/changes"
import { ownChangeSteps } from "./own-change-steps"

export const ownChangeKinds = [
  ...(["urgent", "worse", "better", "ended", "left", "joined"] as const),
  ...(["eGFR category", "urine category", "class started", "class stopped", "decision"] as const),
] as const

/** The kinds by which a list of changes is narrowed. */
export const ownChangeGroups = ["urgent", "worse", "better", "kidney", "drugs", "decisions", "panel"] as const

export type OwnChangeGroup = (typeof ownChangeGroups)[number]

const text = z.string().nullable()
const number = z.number().nullable()

export const OwnChange = z.object({
  total: z.number().int(),
  public_id: z.string(),
  given_name: text,
  family_name: text,
  age_years: z.number().int(),
  next_visit_on: text,
  is_urgent: z.boolean(),
  kind: z.enum(ownChangeKinds),
  /** Of what: a reason, a measure, a class, the topic of a decision, why somebody left. */
  word: text,
  earlier: text,
  later: text,
  cause: z.enum(changeCauses).nullable(),
  on_day: text,
  value: number,
  second_value: number,
  comparator: text,
})

export type OwnChange = z.infer<typeof OwnChange>

/**
 * What changed for a clinician's people between two days, a row a change, by person, most pressing first: something urgent, then
 * a safety measure that newly finds them, then how many other measures they are newly not met on. `$detail` names a group of
 * changes that somebody must have one of; null is everyone. `$limit` and `$offset` count people.
 */
export const ownChanges = {
  sql: `with${ownChangeSteps},
weighed as (
  select
    c.*,
    min(c.pressing) over of_person as most_pressing,
    count(*) filter (where c.pressing <= 2) over of_person as pressing_changes,
    coalesce(bool_or(c.change_group = cast($detail as varchar)) over of_person, true) as is_asked
  from changes as c
  window of_person as (partition by c.patient_id)
),
placed as (
  select
    w.*,
    p.public_id, p.given_name, p.family_name, p.age_years, p.next_visit_on,
    dense_rank() over (
      order by w.most_pressing, w.pressing_changes desc, lower(p.family_name), lower(p.given_name), p.patient_id
    ) as person_place
  from weighed as w
  join patient_month as p on p.patient_id = w.patient_id and p.as_of = cast($as_of as date)
  where w.is_asked
),
counted as (
  select placed.*, max(placed.person_place) over () as total from placed
)
select
  cast(c.total as integer) as total,
  c.public_id, c.given_name, c.family_name, c.age_years, c.next_visit_on,
  c.most_pressing = 0 as is_urgent,
  c.kind, c.word, c.earlier, c.later, c.cause, c.on_day, c.value, c.second_value, c.comparator
from counted as c
where c.person_place > cast($offset as integer) and c.person_place <= cast($offset as integer) + cast($limit as integer)
order by c.person_place, c.pressing, c.place, c.kind, c.word, c.on_day`,
  Row: OwnChange,
} as const
