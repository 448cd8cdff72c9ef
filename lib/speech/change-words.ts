import type { ChangeCause, ChangeKind } from "../domain/changes"
import { month, monthName } from "./format"

/** What a part of a change rests on, in words; whether it is clinical news is said there. */
export function causeWords(kind: ChangeKind, cause: ChangeCause): string {
  const isJoined = kind === "joined"
  switch (cause) {
    case "news":
      return "by a fact dated since then: clinical news"
    case "time":
      return "as time passed: a fact left its window, or a term ended"
    case "panel":
      return isJoined ? "joined the panel" : "left the panel"
    case "exclusion":
      return isJoined ? "an exclusion ended" : "an exclusion began"
    case "exception":
      return isJoined ? "a documented reason ended" : "a documented reason began"
    case "population":
      return isJoined ? "newly asked by the measure" : "no longer asked by the measure"
    case "measured":
      return isJoined ? "newly measured" : "no longer measured"
    case "late":
      return "by a fact that came or was corrected after a month was closed"
    case "setting":
      return "by a setting, or the meaning of a drug text, changed after a month was closed"
  }
}

/** "since September"; with its year where that is another. */
export function sinceMonth(earlierAsOf: string, asOf: string): string {
  return earlierAsOf.slice(0, 4) === asOf.slice(0, 4) || monthsBetween(earlierAsOf, asOf) < 12
    ? monthName(earlierAsOf)
    : month(earlierAsOf)
}

function monthsBetween(earlier: string, later: string): number {
  const monthsOf = (day: string) => Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7))
  return monthsOf(later) - monthsOf(earlier)
}
