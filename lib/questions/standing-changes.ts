import { z } from "zod"
import { standings } from "../domain/standings"
import { measures } from "../measures/index"
import type { Measure } from "../measures/types"
import { changeCauses, changeKinds } from "../domain/changes"
import { causeSql, changeSql, isCountedSql, isNewsSql, newsDaySteps } from "./change-causes"
import { changesSinceClosing } from "./changes-since-closing"

export const StandingChange = z.object({
  measure_id: z.string(),
  earlier: z.enum(standings).nullable(),
  later: z.enum(standings).nullable(),
  change: z.enum(changeKinds).nullable(),
  cause: z.enum(changeCauses).nullable(),
  people: z.number().int(),
})

export type StandingChange = z.infer<typeof StandingChange>

function pairOf({ column, news }: Measure): string {
  return `earlier.${column} as ${column}_earlier, later.${column} as ${column}_later,
    ${isNewsSql(news.gained)} as ${column}_gain_news,
    ${isNewsSql(news.lost)} as ${column}_loss_news`
}

function movesOf({ id, column, direction }: Measure): string {
  return `
  select
    '${id}' as measure_id, pairs.${column}_earlier as earlier, pairs.${column}_later as standing,
    pairs.${column}_gain_news as is_gain_news, pairs.${column}_loss_news as is_loss_news,
    ${isCountedSql(`pairs.${column}_earlier`, direction)} as was_counted,
    ${isCountedSql(`pairs.${column}_later`, direction)} as is_counted,
    count(*) as people
  from pairs
  group by pairs.${column}_earlier, pairs.${column}_later, pairs.${column}_gain_news, pairs.${column}_loss_news`
}

/** For every measure; see `standingChangesOf`. */
export const standingChanges = standingChangesOf(measures)

/**
 * For each of the measures how many people went from each standing to each other between two days, with the change that is and its
 * cause (null: none); a standing that is null is not in the panel.
 */
export function standingChangesOf(list: readonly Measure[]) {
  const sql = `
with later as (
  select * from patient_standings where as_of = cast($as_of as date)
),
earlier as (
  select * from patient_standings where as_of = cast($earlier_as_of as date)
),${newsDaySteps},
pairs as (
  select
    coalesce(later.patient_id, earlier.patient_id) as patient_id,
    ${list.map(pairOf).join(",\n    ")}
  from later
  full join earlier on earlier.patient_id = later.patient_id
  left join news_days as days on days.patient_id = later.patient_id
),
moves as (
  ${list.map(movesOf).join("\n  union all\n")}
),
changed as (
  select m.*, ${changeSql} as change from moves as m
),
${changesSinceClosing(list)},
caused as (
  select m.measure_id, m.earlier, m.standing as later, m.change, ${causeSql} as cause, m.people from changed as m
  union all
  select
    m.measure_id, m.earlier, m.standing, m.change, case when sides.people = 1 then m.cause else ${causeSql} end, sides.people
  from since_closing as m
  cross join (values (-1), (1)) as sides(people)
)
select
  caused.measure_id, caused.earlier, caused.later, caused.change, caused.cause,
  cast(sum(caused.people) as integer) as people
from caused
group by caused.measure_id, caused.earlier, caused.later, caused.change, caused.cause
having sum(caused.people) > 0
order by caused.measure_id, caused.earlier, caused.later, caused.change, caused.cause`
  return { sql, Row: StandingChange } as const
}
