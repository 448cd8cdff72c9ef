import { z } from "zod"

const VisitDay = z.object({ on_day: z.string(), people: z.number() })

export type VisitDay = z.infer<typeof VisitDay>

/**
 * The days with visits in the book, from `$today` on for as many days as the clinic's setting of who is booked soon, and how
 * many people each has.
 */
export const visitDays = {
  sql: `with booked as (
  select people.patient_id, cast(a.starts_at as date) as on_day
  from appointments_raw as a
  join people on people.patient_id = a.patient_id
  where a.status <> 'cancelled'
)
select booked.on_day, cast(count(distinct booked.patient_id) as integer) as people
from booked
cross join settings as t
where booked.on_day >= cast($today as date) and booked.on_day <= cast($today as date) + t.outreach_booked_days
group by booked.on_day
order by booked.on_day`,
  Row: VisitDay,
} as const
