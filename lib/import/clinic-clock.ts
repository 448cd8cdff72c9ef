import type { Day } from "./calendar"

/** The clinic's wall clock: turns local times into instants and instants into days, after the IANA rules of its zone. */
export type ClinicClock = {
  /** The instant (ms since 1970 UTC) of a wall time, given as if it were UTC. */
  instantOf: (wall: number) => number
  dayOf: (instant: number) => Day
}

const hour = 3_600_000
const dayLength = 24 * hour

/** The offsets that hold around one day: `first`, then each later one from its instant on. */
type Offsets = { first: number; changes: { at: number; offset: number }[] }

/**
 * A local time that does not exist (clocks went forward) or exists twice (clocks went back) takes the offset before
 * the change.
 */
export function clinicClock(timeZone: string): ClinicClock {
  const offsetAt = zoneOffsets(timeZone)
  const offsetsByDay = new Map<Day, Offsets>()

  function offsetsAround(day: Day): Offsets {
    const known = offsetsByDay.get(day)
    if (known) return known
    const offsets = findOffsets(offsetAt, (day - 1) * dayLength, (day + 2) * dayLength)
    offsetsByDay.set(day, offsets)
    return offsets
  }

  return {
    instantOf(wall) {
      const { first, changes } = offsetsAround(Math.floor(wall / dayLength))
      let offset = first
      for (const change of changes) {
        if (wall - offset < change.at) break
        if (wall - change.offset < change.at) break
        offset = change.offset
      }
      return wall - offset
    },
    dayOf(instant) {
      const { first, changes } = offsetsAround(Math.floor(instant / dayLength))
      let offset = first
      for (const change of changes) if (instant >= change.at) offset = change.offset
      return Math.floor((instant + offset) / dayLength)
    },
  }
}

function findOffsets(offsetAt: (instant: number) => number, from: number, to: number): Offsets {
  const first = offsetAt(from)
  const changes: Offsets["changes"] = []
  let offset = first
  for (let at = from; at < to; at += 6 * hour) {
    const next = offsetAt(at + 6 * hour)
    if (next === offset) continue
    changes.push({ at: findChange(offsetAt, at, at + 6 * hour), offset: next })
    offset = next
  }
  return { first, changes }
}

/** The first instant with the later offset, by halving. */
function findChange(offsetAt: (instant: number) => number, before: number, after: number): number {
  const later = offsetAt(after)
  let [low, high] = [before, after]
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (offsetAt(middle) === later) high = middle
    else low = middle
  }
  return high
}

function zoneOffsets(timeZone: string): (instant: number) => number {
  const format = new Intl.DateTimeFormat("en-GB", {
    timeZone,
    hourCycle: "h23",
    era: "short",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  })
  return (instant) => {
    const part: Record<string, number> = {}
    let isBeforeChrist = false
    for (const { type, value } of format.formatToParts(instant)) {
      if (type === "era") isBeforeChrist = value.startsWith("B")
      else part[type] = Number(value)
    }
    const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part
    const wall = new Date(0)
    wall.setUTCFullYear(isBeforeChrist ? 1 - year : year, month - 1, day)
    wall.setUTCHours(hour, minute, second)
    return wall.getTime() - Math.floor(instant / 1000) * 1000
  }
}
