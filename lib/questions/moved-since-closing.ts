import { z } from "zod"
import { standings } from "../domain/standings"
import { causesSinceClosing } from "../domain/changes"
import type { Measure } from "../measures/types"

export const MovedPerson = z.object({
  total: z.number().int(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  site: z.string().nullable(),
  clinician_name: z.string().nullable(),
  known: z.enum(standings).nullable(),
  today: z.enum(standings).nullable(),
  cause: z.enum(causesSinceClosing),
})

export type MovedPerson = z.infer<typeof MovedPerson>

/**
 * Who stands elsewhere today on a measure than when the month was closed, by name, and whether
 * by facts or by what was set; null is not in the panel. No row of a month that is not closed.
 */
export function movedSinceClosing(measure: Measure) {
  return {
    sql: `
select
  cast(count(*) over () as integer) as total,
  people.public_id, people.given_name, people.family_name, people.site, people.clinician_name,
  moved.standing_known as known, moved.standing_today as today,
  case when moved.is_late then 'late' else 'setting' end as cause
from standings_since_closing as moved
join people on people.patient_id = moved.patient_id
where moved.as_of = cast($as_of as date) and moved.measure_id = '${measure.id}'
order by lower(people.family_name), lower(people.given_name), people.patient_id
limit cast($limit as integer)`,
    Row: MovedPerson,
  } as const
}
