/** A calendar day as a count from 1 January 1970, so that a life is plain arithmetic. */
export type Day = number

const millisecondsPerDay = 86_400_000
const textByDay = new Map<Day, string>()

/** Reads YYYY-MM-DD. Throws RangeError for anything else, and for a day the calendar does not have. */
export function dayOf(text: string): Day {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  const day = parts
    ? Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])) / millisecondsPerDay
    : NaN
  if (!Number.isFinite(day) || textOf(day) !== text)
    throw new RangeError("dayOf requires a day as YYYY-MM-DD")
  return day
}

/** Writes YYYY-MM-DD. */
export function textOf(day: Day): string {
  const known = textByDay.get(day)
  if (known !== undefined) return known
  const text = new Date(day * millisecondsPerDay).toISOString().slice(0, 10)
  if (textByDay.size < 60_000) textByDay.set(day, text)
  return text
}

/** Writes a local time without an offset: YYYY-MM-DDTHH:MM. */
export function timeOf(day: Day, minuteOfDay: number): string {
  const hours = String(Math.floor(minuteOfDay / 60)).padStart(2, "0")
  const minutes = String(minuteOfDay % 60).padStart(2, "0")
  return `${textOf(day)}T${hours}:${minutes}`
}

/** The same day of the month some calendar months away, or that month's last day when it is shorter. */
export function addMonths(day: Day, months: number): Day {
  const date = new Date(day * millisecondsPerDay)
  const month = date.getUTCMonth() + months
  const lastOfMonth = new Date(Date.UTC(date.getUTCFullYear(), month + 1, 0)).getUTCDate()
  return Date.UTC(date.getUTCFullYear(), month, Math.min(date.getUTCDate(), lastOfMonth)) / millisecondsPerDay
}

export function wholeYearsBetween(birth: Day, on: Day): number {
  const [birthYear, birthRest] = [Number(textOf(birth).slice(0, 4)), textOf(birth).slice(5)]
  const [year, rest] = [Number(textOf(on).slice(0, 4)), textOf(on).slice(5)]
  return year - birthYear - (rest < birthRest ? 1 : 0)
}

export function isWeekend(day: Day): boolean {
  const weekday = (((day + 4) % 7) + 7) % 7
  return weekday === 0 || weekday === 6
}

/** The day itself, or the Monday after it when it falls on a weekend. */
export function workday(day: Day): Day {
  let found = Math.round(day)
  while (isWeekend(found)) found++
  return found
}
