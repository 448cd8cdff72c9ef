import { dayFromText, type Day } from "./day"

/** An instant in milliseconds since 1970 UTC, and the calendar day it has in the clinic's time zone. */
export type Moment = { instant: number; day: Day }

const millisecondsOfDay = 86_400_000
const formats = new Map<string, Intl.DateTimeFormat>()
const offsets = new Map<string, number>()

/**
 * A time of an extract: with an offset, without one (the clinic's time zone), or a plain date (local noon).
 * Null when the text is none of these.
 */
export function momentFromText(text: string, timeZone: string): Moment | null {
  const parts =
    /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*(Z|[+-]\d{2}(?::?\d{2})?)?)?$/i.exec(
      text,
    )
  if (!parts) return null
  const day = dayFromText(parts[1] ?? "")
  if (day === null) return null
  if (parts[2] === undefined) return { instant: instantOfWall(day * millisecondsOfDay + noon, timeZone), day }

  const [hour, minute, second] = [Number(parts[2]), Number(parts[3]), Number(parts[4] ?? 0)]
  if (hour > 23 || minute > 59 || second > 59) return null
  const milliseconds = Math.floor(Number(`0.${parts[5] ?? 0}`) * 1000)
  const wall = day * millisecondsOfDay + ((hour * 60 + minute) * 60 + second) * 1000 + milliseconds
  if (parts[6] === undefined) return momentOf(instantOfWall(wall, timeZone), timeZone)

  return momentOf(wall - offsetFromText(parts[6]), timeZone)
}

const noon = 12 * 3_600_000

function momentOf(instant: number, timeZone: string): Moment {
  return { instant, day: Math.floor((instant + offsetAt(instant, timeZone)) / millisecondsOfDay) }
}

/** A wall time that does not exist or exists twice takes the offset before the change. */
function instantOfWall(wall: number, timeZone: string): number {
  const before = offsetAt(wall - millisecondsOfDay, timeZone)
  const after = offsetAt(wall + millisecondsOfDay, timeZone)
  const isRightBefore = offsetAt(wall - before, timeZone) === before
  const isRightAfter = offsetAt(wall - after, timeZone) === after
  return !isRightBefore && isRightAfter ? wall - after : wall - before
}

/** Clocks change on a quarter of an hour, so the offset of one quarter is asked for once. */
function offsetAt(instant: number, timeZone: string): number {
  const quarter = Math.floor(instant / 900_000) * 900_000
  const place = `${timeZone} ${quarter}`
  const known = offsets.get(place)
  if (known !== undefined) return known
  const offset = offsetAsked(quarter, timeZone)
  offsets.set(place, offset)
  return offset
}

function offsetAsked(instant: number, timeZone: string): number {
  const format = formats.get(timeZone) ?? newFormat(timeZone)
  formats.set(timeZone, format)
  const part: Record<string, number> = {}
  for (const { type, value } of format.formatToParts(instant)) part[type] = Number(value)
  const wall = Date.UTC(
    part.year ?? 0,
    (part.month ?? 1) - 1,
    part.day ?? 1,
    part.hour ?? 0,
    part.minute ?? 0,
    part.second ?? 0,
  )
  return wall - instant
}

function newFormat(timeZone: string): Intl.DateTimeFormat {
  return new Intl.DateTimeFormat("en-GB", {
    timeZone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  })
}

function offsetFromText(text: string): number {
  if (/^z$/i.test(text)) return 0
  const digits = text.slice(1).replace(":", "")
  const minutes = Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2, 4) || 0)
  return (text.startsWith("-") ? -1 : 1) * minutes * 60_000
}
