import type { PlainDate } from "./plain-date"

/** The day so many days later. */
export function daysAfter(day: PlainDate, days: number): PlainDate {
  const instant = new Date(`${day}T00:00:00Z`)
  instant.setUTCDate(instant.getUTCDate() + days)
  return instant.toISOString().slice(0, 10)
}

/** The same day of the month so many months later; the last of a month that is too short for it. */
export function monthsAfter(day: PlainDate, months: number): PlainDate {
  const [year = 0, month = 1, dayOfMonth = 1] = day.split("-").map(Number)
  const lastDay = new Date(Date.UTC(year, month + months, 0)).getUTCDate()
  const instant = new Date(Date.UTC(year, month - 1 + months, Math.min(dayOfMonth, lastDay)))
  return instant.toISOString().slice(0, 10)
}
