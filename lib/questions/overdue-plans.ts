import { planWatch, WatchedPlan } from "./plan-watch"

/**
 * The plans to start an ACE inhibitor or ARB that were not followed in time, those due first before the others. `$clinician_id`
 * is whose patients they are about; null is everybody's.
 */
export const overduePlans = {
  sql: `select w.public_id, w.given_name, w.family_name, w.topic, w.made_on, w.due_on, w.started_on, w.state,
  w.potassium_on, w.creatinine_on, w.tests
from (
  ${planWatch.sql}
) as w
join people on people.public_id = w.public_id
where w.topic = 'ras_blocker' and w.state = 'not started in time'
  and (cast($clinician_id as varchar) is null or people.clinician_id = cast($clinician_id as varchar))
order by w.due_on, lower(w.family_name), lower(w.given_name), w.public_id`,
  Row: WatchedPlan,
} as const
