import type { ChosenBaseline } from "../domain/chart-marks"
import { lastDayOfMonth } from "../domain/plain-date"
import { day, monthShort } from "../speech/format"

/** Months of a baseline: a year, so that no season is left out. */
export const baselineMonths = 12

/** Where the baseline lies among the months plotted; without a choice that still lies there, it is their first year. */
export type Baseline = {
  from: number
  through: number
  chosen: ChosenBaseline | null
  /** A choice whose months are plotted no longer. */
  passed: ChosenBaseline | null
}

export function placeBaseline(asOfs: readonly string[], chosen: ChosenBaseline | null): Baseline {
  const place = chosen ? asOfs.findIndex((asOf) => asOf.startsWith(chosen.fromMonth)) : -1
  if (chosen && place >= 0) return { from: place, through: place + baselineMonths - 1, chosen, passed: null }
  return { from: 0, through: baselineMonths - 1, chosen: null, passed: chosen }
}

/** The months whose year may become the baseline: all twelve are plotted and over. */
export function baselineChoices(asOfs: readonly string[]): string[] {
  const complete = asOfs.filter(isComplete)
  return complete.slice(0, Math.max(0, complete.length - baselineMonths + 1)).map((asOf) => asOf.slice(0, 7))
}

/** Whether a month is over on its as-of date. */
export function isComplete(asOf: string): boolean {
  return asOf === lastDayOfMonth(asOf.slice(0, 7))
}

/** "Baseline: Apr 2025 to Mar 2026, set by Ruth Alder on 3 Nov 2026 because home readings count since then." */
export function baselineWords(baseline: Baseline, asOfs: readonly string[]): string {
  const [from, through] = [asOfs[baseline.from], asOfs[Math.min(baseline.through, asOfs.length - 1)]]
  if (from === undefined || through === undefined) return ""
  const months = `Baseline: ${monthShort(from)} to ${monthShort(through)}`
  const { chosen, passed } = baseline
  if (chosen) {
    return `${months}, set by ${chosen.madeBy} on ${day(chosen.madeOn)}: ${closed(chosen.reason)}`
  }
  const gone = passed ? ` The one set from ${monthShort(passed.fromMonth)} is no longer among them.` : ""
  return `${months}, the first year of the months shown.${gone}`
}

function closed(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`
}
