import { z } from "zod"
import { standings } from "../domain/standings"
import { measures } from "../measures/index"
import type { Measure } from "../measures/types"
import { causeSql, changeCauses, changeKinds, changeSql, newsDaySteps } from "./moved-people"

export const StandingChange = z.object({
  measure_id: z.string(),
  earlier: z.enum(standings).nullable(),
  later: z.enum(standings).nullable(),
  change: z.enum(changeKinds).nullable(),
  cause: z.enum(changeCauses).nullable(),
  people: z.number().int(),
})

export type StandingChange = z.infer<typeof StandingChange>

const pairColumns = measures
  .map(({ column }) => `earlier.${column} as ${column}_earlier, later.${column} as ${column}_later`)
  .join(",\n    ")

function movesOf(measure: Measure): string {
  return `
  select
    '${measure.id}' as measure_id, m.earlier, m.standing as later, m.change, ${causeSql(measure)} as cause
  from (
    select m.*, ${changeSql(measure)} as change
    from (
      select
        pairs.patient_id,
        pairs.${measure.column}_earlier as earlier,
        pairs.${measure.column}_later as standing
      from pairs
    ) as m
  ) as m
  left join news_days as days on days.patient_id = m.patient_id`
}

/**
 * For every measure how many people went from each standing to each other between two days, with the change that is and its
 * cause (null: none); a standing that is null is not in the panel.
 */
export const standingChanges = {
  sql: `
with later as (
  select * from patient_standings where as_of = cast($as_of as date)
),
earlier as (
  select * from patient_standings where as_of = cast($earlier_as_of as date)
),
pairs as (
  select
    coalesce(later.patient_id, earlier.patient_id) as patient_id,
    ${pairColumns}
  from later
  full join earlier on earlier.patient_id = later.patient_id
),${newsDaySteps},
moves as (
  ${measures.map(movesOf).join("\n  union all\n")}
)
select
  moves.measure_id, moves.earlier, moves.later, moves.change, moves.cause, cast(count(*) as integer) as people
from moves
group by moves.measure_id, moves.earlier, moves.later, moves.change, moves.cause
order by moves.measure_id, moves.earlier, moves.later, moves.change, moves.cause`,
  Row: StandingChange,
} as const
