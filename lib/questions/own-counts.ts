import { z } from "zod"
import { ownPeopleSteps } from "./own-people"
import { urgentStep } from "./urgent-now"

export const OwnCounts = z.object({
  people: z.number().int(),
  at_target: z.number().int(),
  above_target: z.number().int(),
  not_measured: z.number().int(),
  without_ras_blocker: z.number().int(),
  urgent: z.number().int(),
})

export type OwnCounts = z.infer<typeof OwnCounts>

/**
 * How many of a clinician's people are in the panel on a day, how their pressure stands, how many with protein in the urine
 * go without an ACE inhibitor or ARB, and about how many something is urgent (asked of the running day alone).
 */
export const ownCounts = {
  sql: `with${ownPeopleSteps},${urgentStep},
urgent_people as (
  select distinct urgent.patient_id from urgent
)
select
  cast(count(*) as integer) as people,
  cast(count(*) filter (where s.bp_at_target = 'met') as integer) as at_target,
  cast(count(*) filter (where s.bp_at_target = 'not met') as integer) as above_target,
  cast(count(*) filter (where s.bp_at_target = 'unknown') as integer) as not_measured,
  cast(count(*) filter (where s.ras_blocker_in_albuminuria = 'not met') as integer) as without_ras_blocker,
  cast(count(urgent_people.patient_id) as integer) as urgent
from own
join patient_standings as s on s.patient_id = own.patient_id and s.as_of = cast($as_of as date)
left join urgent_people on urgent_people.patient_id = own.patient_id`,
  Row: OwnCounts,
} as const
