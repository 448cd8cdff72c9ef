import { z } from "zod"
import { standings } from "../domain/standings"
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
})

export type MovedPerson = z.infer<typeof MovedPerson>

/**
 * Who stands elsewhere today on a measure than when the month was closed, by name; null is not in the panel. No row of a month
 * that is not closed.
 */
export function movedSinceClosing(measure: Measure) {
  return {
    sql: `
with known as (
  select s.patient_id, s.${measure.column} as standing
  from patient_standings as s
  join closed_months as c on c.as_of = s.as_of
  where s.as_of = cast($as_of as date)
),
today as (
  select s.patient_id, s.${measure.column} as standing
  from patient_standings_today as s
  where s.as_of = cast($as_of as date)
),
moved as (
  select
    coalesce(known.patient_id, today.patient_id) as patient_id,
    known.standing as known_standing,
    today.standing as today_standing
  from known
  full join today on today.patient_id = known.patient_id
  where coalesce(known.standing, 'outside') <> coalesce(today.standing, 'outside')
)
select
  cast(count(*) over () as integer) as total,
  people.public_id, people.given_name, people.family_name, people.site, people.clinician_name,
  moved.known_standing as known, moved.today_standing as today
from moved
join people on people.patient_id = moved.patient_id
order by lower(people.family_name), lower(people.given_name), people.patient_id
limit cast($limit as integer)`,
    Row: MovedPerson,
  } as const
}
