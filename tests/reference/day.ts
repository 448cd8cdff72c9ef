/** A calendar day as the count of days since 1970-01-01, so that days are added and compared as numbers. */
export type Day = number

const millisecondsOfDay = 86_400_000

/** The day a text of the form YYYY-MM-DD names; null when there is no such day. */
export function dayFromText(text: string): Day | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  if (!parts) return null
  const value = dayOf(Number(parts[1]), Number(parts[2]), Number(parts[3]))
  return dayToText(value) === text ? value : null
}

export function day(text: string): Day {
  const value = dayFromText(text)
  if (value === null) throw new RangeError(`day requires a date YYYY-MM-DD, not ${text}`)
  return value
}

export function dayToText(value: Day): string {
  return new Date(value * millisecondsOfDay).toISOString().slice(0, 10)
}

/** The same day of another month, or that month's last day: 31 March minus 1 month is 28 or 29 February. */
export function plusMonths(value: Day, months: number): Day {
  const { year, month, dayOfMonth } = partsOf(value)
  const monthsSinceZero = year * 12 + (month - 1) + months
  const targetYear = Math.floor(monthsSinceZero / 12)
  const targetMonth = monthsSinceZero - targetYear * 12 + 1
  return dayOf(targetYear, targetMonth, Math.min(dayOfMonth, daysInMonth(targetYear, targetMonth)))
}

export function minusMonths(value: Day, months: number): Day {
  return plusMonths(value, -months)
}

/** The open-start window of so many calendar months: day > end minus N months and day <= end. */
export function isInLastMonths(value: Day, end: Day, months: number): boolean {
  return value > minusMonths(end, months) && value <= end
}

/** The open-start window of so many days: day > end - N and day <= end. */
export function isInLastDays(value: Day, end: Day, days: number): boolean {
  return value > end - days && value <= end
}

/** Whole years completed; somebody born on 29 February completes them on 1 March in a common year. */
export function ageInYears(birth: Day, on: Day): number {
  const born = partsOf(birth)
  const now = partsOf(on)
  const hadBirthday =
    now.month > born.month || (now.month === born.month && now.dayOfMonth >= born.dayOfMonth)
  return now.year - born.year - (hadBirthday ? 0 : 1)
}

/** The calendar month of a day as a running count, so that months can be subtracted. */
export function monthNumber(value: Day): number {
  const { year, month } = partsOf(value)
  return year * 12 + month - 1
}

export function dayOf(year: number, month: number, dayOfMonth: number): Day {
  return Math.round(Date.UTC(year, month - 1, dayOfMonth) / millisecondsOfDay)
}

function partsOf(value: Day): { year: number; month: number; dayOfMonth: number } {
  const date = new Date(value * millisecondsOfDay)
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, dayOfMonth: date.getUTCDate() }
}

function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate()
}
