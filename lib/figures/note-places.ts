import type { ChartNote } from "../domain/chart-marks"

/** A note with its number in the list and how far along the months it stands, 0 to 1; null outside the months drawn. */
export type PlacedNote = { note: ChartNote; number: number; along: number | null }

/**
 * Where notes stand on a chart over the months.
 *
 * Shape: the as-of days in order, each the end of its month on the axis, and the notes in the order of their list; a day
 * within a month stands between the ends before and after it by its share of the days.
 * Absent: no place for a day before the first as-of day or after the last.
 * Example: 15 Feb 2026 between 31 Jan and 28 Feb, the only two months, stands at 15 / 28.
 */
export function placeNotes(asOfs: readonly string[], notes: readonly ChartNote[]): PlacedNote[] {
  return notes.map((note, place) => ({ note, number: place + 1, along: placeOf(asOfs, note.onDay) }))
}

function placeOf(asOfs: readonly string[], day: string): number | null {
  const after = asOfs.findIndex((asOf) => asOf >= day)
  const [next, before] = [asOfs[after], asOfs[after - 1]]
  if (next === undefined || asOfs.length < 2) return null
  if (before === undefined) return next === day ? 0 : null
  const share = daysBetween(before, day) / daysBetween(before, next)
  return (after - 1 + share) / (asOfs.length - 1)
}

function daysBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / 86_400_000
}
