import { count, counted, percentInterval } from "../speech/format"
import { groupTitle } from "./group-words"
import { fewestForRate, rateLabel } from "./measure-figure"
import type { ReportedDivision, ReportedGroup } from "./reported-groups"

/**
 * The groups of a measure that may be seen, a row for each kind: "Northgate 41% (38 to 44) of 760; 2 groups not shown". A
 * kind of which no group may be seen has no row.
 */
export function reportedGroupWords(divisions: readonly ReportedDivision[]): [string, string][] {
  return divisions.flatMap(({ kind, groups }): [string, string][] => {
    const said = groups.flatMap((group) => groupSaid(group) ?? [])
    const hidden = groups.length - said.length
    if (said.length === 0) return []
    const rest = hidden === 0 ? [] : [`${counted(hidden, "group", "groups")} not shown`]
    return [[groupTitle(kind), [...said, ...rest].join("; ")]]
  })
}

function groupSaid({ name, shown }: ReportedGroup): string | null {
  if (shown === null) return null
  const { rate } = shown
  if (rate.interval === null || rate.total < fewestForRate) return `${name} ${rateLabel(rate)}`
  return `${name} ${rateLabel(rate)} (${percentInterval(rate.interval)}) of ${count(rate.total)}`
}
