import { z } from "zod"
import { standings } from "../domain/standings"
import type { Measure } from "../measures/types"

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

/**
 * Who would stand elsewhere on one day under the settings that are tried, by measure and name, the first `$limit` of each;
 * asked where `whatIf` has put the tried standings in front of those of `snapshot`. Whoever is not in the panel is outside.
 */
export function triedPeople(measures: readonly Measure[]) {
  return {
    sql: `
with moved as (
  ${measures.map(movedOf).join("\n  union all\n  ")}
),
numbered as (
  select
    moved.measure_id, moved.patient_id, people.public_id, people.given_name, people.family_name, moved.now, moved."then",
    row_number() over (
      partition by moved.measure_id
      order by lower(people.family_name), lower(people.given_name), moved.patient_id
    ) as place
  from moved
  join people on people.patient_id = moved.patient_id
)
select n.measure_id, n.patient_id, n.public_id, n.given_name, n.family_name, n.now, n."then"
from numbered as n
where n.place <= cast($limit as integer)
order by n.measure_id, n.place`,
    Row: TriedPerson,
  } as const
}

function movedOf({ id, column }: Measure): string {
  return `select
    '${id}' as measure_id,
    coalesce(tried.patient_id, today.patient_id) as patient_id,
    coalesce(today.${column}, 'outside') as now,
    coalesce(tried.${column}, 'outside') as "then"
  from (select s.patient_id, s.${column} from patient_standings as s where s.as_of = cast($as_of as date)) as tried
  full outer join (
    select s.patient_id, s.${column} from snapshot.main.patient_standings as s where s.as_of = cast($as_of as date)
  ) as today on today.patient_id = tried.patient_id
  where coalesce(tried.${column}, 'outside') <> coalesce(today.${column}, 'outside')`
}
