import { z } from "zod"
import { byName, listColumns, listRow } from "./list-person"
import { measures } from "../measures/index"
import { ownPeopleSteps } from "./own-people"

const text = z.string().nullable()

export const OwnVisit = z.object({
  ...listRow,
  on_day: z.string(),
  /** The time on the clinic's clock, null where the extract has the day alone. */
  starts_at: text,
  kind: text,
  /** With whom, where that is not whose list it is. */
  with_name: text,
  last_visit_on: text,
  /** Whether each measure wants attention, in their order. */
  wanting: z.array(z.boolean()).length(measures.length),
})

export type OwnVisit = z.infer<typeof OwnVisit>

/** The standing of a measure that wants attention: not met, or the state that should not be. */
export const attentionStanding = { up: "not met", down: "met" } as const

/**
 * The booked visits of a clinician's people from `$today` to 14 days later, by the clock, with what is on record on `$as_of`.
 * Who died or left has none.
 */
export const ownVisits = {
  sql: `with${ownPeopleSteps}
select
  ${listColumns},
  cast(a.starts_at as date) as on_day,
  case when not a.is_date_only then strftime(a.starts_at, '%H:%M') end as starts_at,
  a.kind,
  case when a.clinician_id is distinct from cast($clinician as varchar) then other.name end as with_name,
  d.last_visit_on,
  [
    ${measures.map(({ column, direction }) => `coalesce(s.${column} = '${attentionStanding[direction]}', false)`).join(",\n    ")}
  ] as wanting
from appointments_raw as a
join own on own.patient_id = a.patient_id
join patient_month as p on p.patient_id = a.patient_id and p.as_of = cast($as_of as date)
join patient_days as d on d.patient_id = a.patient_id and d.as_of = cast($as_of as date)
left join patient_standings as s on s.patient_id = a.patient_id and s.as_of = cast($as_of as date)
left join clinicians as other on other.staff_id = a.clinician_id
where a.status = 'booked'
  and cast(a.starts_at as date) >= cast($today as date) and cast(a.starts_at as date) <= cast($today as date) + 14
  and coalesce(p.panel_reason not in ('died', 'left'), true)
order by on_day, a.is_date_only, a.starts_at, ${byName}, a.appointment_id
limit cast($limit as integer)`,
  Row: OwnVisit,
} as const
