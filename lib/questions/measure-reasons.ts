import { z } from "zod"
import { standings } from "../domain/standings"
import type { Measure } from "../measures/types"

export const ReasonCount = z.object({
  standing: z.enum(standings),
  reason: z.string(),
  people: z.number().int(),
})

export type ReasonCount = z.infer<typeof ReasonCount>

/** Why people are excluded, unknown or an exception on a day, by the reason shown first; most frequent first. */
export function measureReasons(measure: Measure) {
  return {
    sql: `
select
  s.${measure.column} as standing,
  s.${measure.column}_reasons[1] as reason,
  cast(count(*) as integer) as people
from patient_standings as s
where s.as_of = cast($as_of as date) and s.${measure.column} in ('excluded', 'unknown', 'exception')
group by s.${measure.column}, s.${measure.column}_reasons[1]
order by standing, people desc, reason`,
    Row: ReasonCount,
  } as const
}
