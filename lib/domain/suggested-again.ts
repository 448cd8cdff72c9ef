import { daysAfter } from "./day-sums"
import type { ContactOutcome } from "./outreach-case"
import type { PlainDate } from "./plain-date"

/** Days until the next try where nobody named a day. Common practice, no source. */
const daysByOutcome: Readonly<Partial<Record<ContactOutcome, number>>> = {
  "wants a call back": 1,
  "no answer": 2,
  "message left": 3,
  "proxy reached": 3,
  "language barrier": 7,
  "letter sent": 14,
}

/** The working day on which to try again after an outcome on a day; null where an outcome asks for none. */
export function suggestedAgain(outcome: ContactOutcome, on: PlainDate): PlainDate | null {
  const days = daysByOutcome[outcome]
  return days === undefined ? null : workingDay(daysAfter(on, days))
}

/** The day itself, or the Monday after a weekend. */
export function workingDay(day: PlainDate): PlainDate {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay()
  if (weekday === 6) return daysAfter(day, 2)
  return weekday === 0 ? daysAfter(day, 1) : day
}
