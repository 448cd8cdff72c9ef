import { describe, expect, test } from "vitest"
import { textOfDay } from "../../../lib/import/calendar"
import { clinicClock } from "../../../lib/import/clinic-clock"
import { momentFromText } from "../../../lib/import/times"

// The instants of change are those of the IANA time zone database (tzdata), named by rule or zone line.
describe("a local time that does not exist takes the offset before the change", () => {
  test.each([
    // Rule US 2007 max Mar Sun>=8 2:00: on 8 March 2026 EST (-05:00) ends at 07:00Z.
    ["America/New_York", "2026-03-08T02:30", "2026-03-08T07:30:00.000Z"],
    ["America/New_York", "2026-03-08T01:59", "2026-03-08T06:59:00.000Z"],
    ["America/New_York", "2026-03-08T03:00", "2026-03-08T07:00:00.000Z"],
    // Rule EU 1981 max Mar lastSun 1:00u: on 29 March 2026 CET (+01:00) ends at 01:00Z.
    ["Europe/Berlin", "2026-03-29T02:30", "2026-03-29T01:30:00.000Z"],
    ["Europe/Berlin", "2026-03-29T03:00", "2026-03-29T01:00:00.000Z"],
    // Rule LH 2008 max Oct Sun>=1 2:00 0:30: Lord Howe goes forward by half an hour, from +10:30 to +11:00.
    ["Australia/Lord_Howe", "2026-10-04T02:15", "2026-10-03T15:45:00.000Z"],
    // Zone Pacific/Apia: 30 December 2011 was left out altogether (-10:00 to +14:00).
    ["Pacific/Apia", "2011-12-30T12:00", "2011-12-30T22:00:00.000Z"],
  ])("%s %s", (zone, local, instant) => {
    expect(instantOf(zone, local)).toBe(instant)
  })
})

describe("a local time that exists twice takes the offset before the change", () => {
  test.each([
    // Rule US 2007 max Nov Sun>=1 2:00: on 1 November 2026 EDT (-04:00) ends at 06:00Z.
    ["America/New_York", "2026-11-01T01:30", "2026-11-01T05:30:00.000Z"],
    ["America/New_York", "2026-11-01T02:00", "2026-11-01T07:00:00.000Z"],
    // Rule EU 1996 max Oct lastSun 1:00u: on 25 October 2026 CEST (+02:00) ends at 01:00Z.
    ["Europe/Berlin", "2026-10-25T02:30", "2026-10-25T00:30:00.000Z"],
    ["Europe/Berlin", "2026-10-25T03:00", "2026-10-25T02:00:00.000Z"],
    // Rule LH 2008 max Apr Sun>=1 2:00 0: back by half an hour.
    ["Australia/Lord_Howe", "2026-04-05T01:45", "2026-04-04T14:45:00.000Z"],
  ])("%s %s", (zone, local, instant) => {
    expect(instantOf(zone, local)).toBe(instant)
  })
})

describe("an instant has the day it has in the clinic", () => {
  test.each([
    ["America/Chicago", "2026-03-15T04:59:59Z", "2026-03-14"],
    ["America/Chicago", "2026-03-15T05:00:00Z", "2026-03-15"],
    ["Pacific/Kiritimati", "2026-03-14T10:00:00Z", "2026-03-15"],
    ["Asia/Kathmandu", "2026-03-14T18:15:00Z", "2026-03-15"],
    ["America/New_York", "2026-11-02T04:30:00Z", "2026-11-01"],
  ])("%s %s", (zone, instant, day) => {
    expect(textOfDay(clinicClock(zone).dayOf(Date.parse(instant)))).toBe(day)
  })
})

test("every half hour of a year comes back from its wall time, except the second time a wall time comes round", () => {
  const wrong: string[] = []
  for (const zone of ["America/New_York", "Europe/London", "Australia/Lord_Howe", "America/Santiago"]) {
    const clock = clinicClock(zone)
    const wallClock = new Intl.DateTimeFormat("sv-SE", {
      timeZone: zone,
      dateStyle: "short",
      timeStyle: "medium",
    })
    const seen = new Set<number>()
    for (let instant = Date.UTC(2026, 0, 1); instant < Date.UTC(2027, 0, 1); instant += 1_800_000) {
      const wall = Date.parse(`${wallClock.format(instant).replace(" ", "T")}Z`)
      if (!seen.has(wall) && clock.instantOf(wall) !== instant) wrong.push(`${zone} ${instant}`)
      seen.add(wall)
    }
    // One hour of the year is repeated, half an hour on Lord Howe.
    expect(seen.size).toBe(365 * 48 - (zone === "Australia/Lord_Howe" ? 1 : 2))
  }
  expect(wrong).toEqual([])
})

function instantOf(zone: string, local: string): string {
  const moment = momentFromText(local, clinicClock(zone))
  if (!moment) throw new RangeError("the time cannot be read")
  return new Date(moment.instant).toISOString()
}
