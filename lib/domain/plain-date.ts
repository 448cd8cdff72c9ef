import { z } from "zod"

/** A calendar day as text, `2026-01-31`; compares and sorts as text. */
export const PlainDate = z.string().refine(isPlainDate, "is not a day like 2026-01-31")

export type PlainDate = string

export function isPlainDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const instant = new Date(`${text}T00:00:00Z`)
  return !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text)
}

/** The calendar day an instant has in a time zone (an IANA name). */
export function plainToday(now: Date, timeZone: string): PlainDate {
  const parts = new Intl.DateTimeFormat("en-CA", {
    timeZone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
  }).formatToParts(now)
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? ""
  return `${part("year")}-${part("month")}-${part("day")}`
}

/** The last day of a month such as `2026-02`. */
export function lastDayOfMonth(month: string): PlainDate {
  const [year = 0, number = 0] = month.split("-").map(Number)
  return new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10)
}
