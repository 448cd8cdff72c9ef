import { z } from "zod"
import { byName, listColumns, listPage, listRow } from "./list-person"
import { startingFindings, startingGroups } from "./starting-and-stopping-groups"
import { rowsToStartOrStop } from "./starting-and-stopping-rows"

const text = z.string().nullable()
const number = z.number().nullable()

export const StartingPerson = z.object({
  ...listRow,
  /** Days from the pressure to the day asked for. */
  bp_age_days: number,
  classes: z.array(z.string()),
  /** Which findings hold, in their order; only those of the list asked for mean something. */
  holds: z.array(z.boolean()).length(startingFindings.length),
  fell_on: text,
  egfr: number,
  egfr_on: text,
  urine_category: text,
  urine_on: text,
  albuminuria: text,
  heart_failure: z.boolean(),
  atrial_fibrillation: z.boolean(),
  sodium_mg: number,
  sodium_on: text,
  next_visit_on: text,
})

export type StartingPerson = z.infer<typeof StartingPerson>

/**
 * Who is on a list of starting and stopping on a day, most pressing first. `$group_id` names the list, null is all of them;
 * `$detail` names a finding of it, null is everyone.
 */
export const startingPeople = {
  sql: `${rowsToStartOrStop.steps}
select
  ${listColumns},
  cast(p.as_of - p.bp_on as integer) as bp_age_days,
  p.classes,
  [
    ${startingFindings.map(({ sql }) => `coalesce((${sql}), false)`).join(",\n    ")}
  ] as holds,
  falls.fell_on,
  p.egfr, p.egfr_on, p.a as urine_category, p.urine_on, p.albuminuria,
  coalesce(p.heart_failure, false) as heart_failure,
  coalesce(p.atrial_fibrillation, false) as atrial_fibrillation,
  cast(p.sodium_mg as double) as sodium_mg, p.sodium_on, p.next_visit_on
${rowsToStartOrStop.from}
  and case cast($group_id as varchar)
    ${startingGroups.map(({ id, sql }) => `when '${id}' then ${sql}`).join("\n    ")}
    else cast($group_id as varchar) is null and (${startingGroups.map(({ sql }) => `(${sql})`).join(" or ")})
  end
  and (cast($detail as varchar) is null
    or case cast($detail as varchar)
      ${startingFindings.map(({ id, sql }) => `when '${id}' then coalesce((${sql}), false)`).join("\n      ")}
      else false
    end)
order by
  ${orderBy(0)} desc nulls last,
  ${orderBy(1)} desc nulls last,
  ${byName}
${listPage}`,
  Row: StartingPerson,
} as const

function orderBy(place: 0 | 1): string {
  const of = startingGroups.map(({ id, order }) => `when '${id}' then cast(${order[place]} as double)`)
  return `case cast($group_id as varchar) ${of.join(" ")} end`
}
