import { describe, expect, test } from "vitest"
import { textOfDay } from "../../../lib/import/calendar"
import { clinicClock } from "../../../lib/import/clinic-clock"
import { momentFromText } from "../../../lib/import/times"

const clock = clinicClock("America/Chicago")

function read(text: string): string | null {
  const moment = momentFromText(text, clock)
  return moment && new Date(moment.instant).toISOString()
}

describe("reads times", () => {
  test.each([
    ["2026-01-31T14:30", "2026-01-31T20:30:00.000Z"],
    ["2026-07-31 14:30", "2026-07-31T19:30:00.000Z"],
    ["2026-01-31t14:30:05", "2026-01-31T20:30:05.000Z"],
    ["2026-01-31T14:30:05.9", "2026-01-31T20:30:05.900Z"],
    ["2026-01-31T14:30:05.123456789", "2026-01-31T20:30:05.123Z"],
    ["2026-01-31T14:30Z", "2026-01-31T14:30:00.000Z"],
    ["2026-01-31T14:30z", "2026-01-31T14:30:00.000Z"],
    ["2026-01-31T14:30:00+02:00", "2026-01-31T12:30:00.000Z"],
    ["2026-01-31 14:30:00 +0200", "2026-01-31T12:30:00.000Z"],
    ["2026-01-31T14:30-08", "2026-01-31T22:30:00.000Z"],
    ["2026-01-31T00:15+05:45", "2026-01-30T18:30:00.000Z"],
    ["1965-01-31T14:30:00+14:00", "1965-01-31T00:30:00.000Z"],
  ])("%s", (text, instant) => {
    expect(read(text)).toBe(instant)
  })

  test("a plain date is noon in the clinic, and flagged", () => {
    expect(momentFromText("2026-01-31", clock)).toEqual({
      instant: Date.parse("2026-01-31T18:00:00Z"),
      day: Date.parse("2026-01-31") / 86_400_000,
      isDateOnly: true,
    })
  })

  test("a time with an offset belongs to the day it has in the clinic", () => {
    expect(textOfDay(momentFromText("2026-02-01T03:00Z", clock)?.day ?? 0)).toBe("2026-01-31")
  })
})

test.each([
  ...["2026-02-30T10:00", "2026-01-31T24:00", "2026-01-31T23:60", "2026-01-31T23:59:60", "2026-01-31T10"],
  ...["2026-01-31T10:00+15:00", "2026-01-31T10:00+02:60", "2026-01-31X10:00", "20260131T1000", "10:00", ""],
  ...["2026-01-31T10:00:00 PM", "2026-01-31T1:00", "2026-01-31T10:00+2", "31/01/2026 10:00", "2026-01-31 "],
])("%j is no time", (text) => {
  expect(read(text)).toBeNull()
})
