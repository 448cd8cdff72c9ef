import { dayAtStart, digitsAt, type Day } from "./calendar"
import type { ClinicClock } from "./clinic-clock"

/** A time of the extract: the instant in ms since 1970 UTC, and the calendar day it has in the clinic. */
export type Moment = { instant: number; day: Day; isDateOnly: boolean }

const minute = 60_000
const dayLength = 86_400_000
/** What may follow hours and minutes: seconds, parts of a second, an offset. */
const precise = /^(?::(\d\d)(?:[.,](\d{1,9}))?)?(?: ?(Z|[+-]\d\d(?::?\d\d)?))?$/i

/**
 * Reads an ISO 8601 date-time with an offset, one without (the clinic's wall clock), or a plain date (noon on that clock,
 * flagged). Parts of a second beyond a thousandth are dropped. Null when the text is none of these.
 */
export function momentFromText(text: string, clock: ClinicClock): Moment | null {
  const day = dayAtStart(text)
  if (day === null) return null
  if (text.length === 10) {
    return { instant: clock.instantOf(day * dayLength + 12 * 60 * minute), day, isDateOnly: true }
  }
  const separator = text[10]
  if (separator !== "T" && separator !== " " && separator !== "t") return null
  const [hours, minutes] = [digitsAt(text, 11, 2), digitsAt(text, 14, 2)]
  if (text[13] !== ":" || hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return null
  const wall = day * dayLength + (hours * 60 + minutes) * minute
  if (text.length === 16) return momentOf(clock.instantOf(wall), clock)

  const match = precise.exec(text.slice(16))
  const seconds = Number(match?.[1] ?? 0)
  if (!match || seconds > 59) return null
  const thousandths = Number((match[2] ?? "").slice(0, 3).padEnd(3, "0"))
  const preciseWall = wall + seconds * 1000 + thousandths
  if (match[3] === undefined) return momentOf(clock.instantOf(preciseWall), clock)
  const offset = offsetFromText(match[3])
  return offset === null ? null : momentOf(preciseWall - offset, clock)
}

function momentOf(instant: number, clock: ClinicClock): Moment {
  return { instant, day: clock.dayOf(instant), isDateOnly: false }
}

/** No clock on earth is more than 14 hours from UTC. */
function offsetFromText(text: string): number | null {
  if (text.length === 1) return 0
  const hours = digitsAt(text, 1, 2)
  const minutes = text.length === 3 ? 0 : digitsAt(text, text.length - 2, 2)
  if (minutes > 59 || hours * 60 + minutes > 14 * 60) return null
  return (text.startsWith("-") ? -1 : 1) * (hours * 60 + minutes) * minute
}
