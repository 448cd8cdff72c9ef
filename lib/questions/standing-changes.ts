import { z } from "zod"
import { standings } from "../domain/standings"
import { measures } from "../measures/index"

export const StandingChange = z.object({
  measure_id: z.string(),
  earlier: z.enum(standings).nullable(),
  later: z.enum(standings).nullable(),
  people: z.number().int(),
})

export type StandingChange = z.infer<typeof StandingChange>

const standingsOfAll = measures
  .map(
    (measure) => `select s.patient_id, s.as_of, '${measure.id}' as measure_id, s.${measure.column} as standing
  from patient_standings as s`,
  )
  .join("\n  union all\n  ")

/** For every measure how many people went from each standing to each other between two days; null is not in the panel. */
export const standingChanges = {
  sql: `
with standing as (
  ${standingsOfAll}
),
earlier as (select * from standing where as_of = cast($earlier_as_of as date)),
later as (select * from standing where as_of = cast($as_of as date))
select
  coalesce(later.measure_id, earlier.measure_id) as measure_id,
  earlier.standing as earlier,
  later.standing as later,
  cast(count(*) as integer) as people
from earlier
full join later on later.patient_id = earlier.patient_id and later.measure_id = earlier.measure_id
group by coalesce(later.measure_id, earlier.measure_id), earlier.standing, later.standing
order by measure_id, earlier, later`,
  Row: StandingChange,
} as const
