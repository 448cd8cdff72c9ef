import { z } from "zod"
import { startingFindings, startingGroups } from "./starting-and-stopping-groups"
import { rowsToStartOrStop } from "./starting-and-stopping-rows"

export const StartingCounts = z.object({
  /** Of each list, in their order. */
  groups: z.array(z.number().int()).length(startingGroups.length),
  /** Of each finding among its list, in their order. */
  found: z.array(z.number().int()).length(startingFindings.length),
})

export type StartingCounts = z.infer<typeof StartingCounts>

const groupSql = new Map<string, string>(startingGroups.map(({ id, sql }) => [id, sql]))

/** How many are on each list of starting and stopping on a day, and how many of them with each finding. */
export const startingCounts = {
  sql: `${rowsToStartOrStop.steps}
select
  [
    ${startingGroups.map(({ sql }) => countWhere(sql)).join(",\n    ")}
  ] as groups,
  [
    ${startingFindings.map(({ sql, group }) => countWhere(`(${groupSql.get(group)}) and (${sql})`)).join(",\n    ")}
  ] as found
${rowsToStartOrStop.from}`,
  Row: StartingCounts,
} as const

function countWhere(sql: string): string {
  return `cast(count(*) filter (where ${sql}) as integer)`
}
