/** A calendar day as the number of days since 1970-01-01, which compares and subtracts cheaply. */
export type Day = number

const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
const hyphen = 45

/** The day a text such as `2026-01-31` names; null when the calendar has no such day. */
export function dayFromText(text: string): Day | null {
  return text.length === 10 ? dayAtStart(text) : null
}

/** The day that the first ten characters name. */
export function dayAtStart(text: string): Day | null {
  if (text.charCodeAt(4) !== hyphen || text.charCodeAt(7) !== hyphen) return null
  return dayFromParts(digitsAt(text, 0, 4), digitsAt(text, 5, 2), digitsAt(text, 8, 2))
}

/** The number that so many digits at a place of a text write; -1 when one of them is no digit. */
export function digitsAt(text: string, from: number, count: number): number {
  let number = 0
  for (let at = from; at < from + count; at += 1) {
    const digit = text.charCodeAt(at) - 48
    if (!(digit >= 0 && digit <= 9)) return -1
    number = number * 10 + digit
  }
  return number
}

export function dayFromParts(year: number, month: number, day: number): Day | null {
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > lastDay(year, month)) return null
  // Years start in March, so that the leap day is the last of its year; 146097 days are 400 years.
  const marchYear = month > 2 ? year : year - 1
  const marchMonth = (month + 9) % 12
  const era = Math.floor(marchYear / 400)
  const yearOfEra = marchYear - era * 400
  const dayOfYear = Math.floor((153 * marchMonth + 2) / 5) + day - 1
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear
  return era * 146097 + dayOfEra - 719468
}

export function textOfDay(day: Day): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10)
}

/** The same day of the calendar so many years earlier; 29 February becomes the 28th where there is none. */
export function yearsBefore(day: Day, years: number): Day {
  const [year = 0, month = 1, date = 1] = textOfDay(day).split("-").map(Number)
  const earlier = year - years
  return dayFromParts(earlier, month, Math.min(date, lastDay(earlier, month))) ?? day
}

function lastDay(year: number, month: number): number {
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0)
  return month === 2 && isLeap ? 29 : (monthDays[month - 1] ?? 0)
}
