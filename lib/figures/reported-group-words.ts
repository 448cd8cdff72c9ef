import { count, percentInterval, sentenceCase } from "../speech/format"
import { groupTitle } from "./group-words"
import { fewestForRate, rateLabel } from "./measure-figure"
import type { ReportedDivision, ReportedGroup } from "./reported-groups"

/** The groups of a measure, a row for each kind: "Northgate 41% (38 to 44) of 760; Southgate not shown". */
export function reportedGroupWords(divisions: readonly ReportedDivision[]): [string, string][] {
  return divisions.map(({ kind, groups }) => [groupTitle(kind), groups.map(groupSaid).join("; ")])
}

function groupSaid({ name, shown }: ReportedGroup): string {
  const said = sentenceCase(name)
  if (shown === null) return `${said} not shown`
  const { rate } = shown
  if (rate.interval === null || rate.total < fewestForRate) return `${said} ${rateLabel(rate)}`
  return `${said} ${rateLabel(rate)} (${percentInterval(rate.interval)}) of ${count(rate.total)}`
}
