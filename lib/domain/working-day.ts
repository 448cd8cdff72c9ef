import { daysAfter } from "./day-sums"
import type { PlainDate } from "./plain-date"

/** The latest day before this one that is neither a Saturday nor a Sunday; holidays are not known. */
export function workingDayBefore(day: PlainDate): PlainDate {
  const before = daysAfter(day, -1)
  const weekday = new Date(`${before}T00:00:00Z`).getUTCDay()
  return weekday === 0 || weekday === 6 ? workingDayBefore(before) : before
}
