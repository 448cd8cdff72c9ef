import { describe, expect, it } from "vitest"
import {
  addMonths,
  dayOf,
  isWeekend,
  textOf,
  timeOf,
  wholeYearsBetween,
  workday,
} from "../../../seed/calendar"

describe("calendar days", () => {
  it("reads and writes days on both sides of 1970 and in leap years", () => {
    for (const text of ["1931-03-01", "1969-12-31", "1970-01-01", "2000-02-29", "2024-02-29", "2026-11-24"]) {
      expect(textOf(dayOf(text))).toBe(text)
    }
  })

  it("refuses what is no day", () => {
    for (const text of ["2026-02-30", "2025-02-29", "2026-13-01", "24 November", ""]) {
      expect(() => dayOf(text)).toThrow(RangeError)
    }
  })

  it("keeps to the last day of a shorter month", () => {
    expect(textOf(addMonths(dayOf("2026-03-31"), -1))).toBe("2026-02-28")
    expect(textOf(addMonths(dayOf("2024-03-31"), -1))).toBe("2024-02-29")
    expect(textOf(addMonths(dayOf("2026-11-24"), -40))).toBe("2023-07-24")
  })

  it("counts completed years", () => {
    expect(wholeYearsBetween(dayOf("1954-02-20"), dayOf("2026-02-19"))).toBe(71)
    expect(wholeYearsBetween(dayOf("1954-02-20"), dayOf("2026-02-20"))).toBe(72)
  })

  it("moves a weekend to the Monday after it", () => {
    // 21 and 22 November 2026 are a Saturday and a Sunday.
    expect(isWeekend(dayOf("2026-11-21"))).toBe(true)
    expect(textOf(workday(dayOf("2026-11-21")))).toBe("2026-11-23")
    expect(textOf(workday(dayOf("2026-11-20")))).toBe("2026-11-20")
  })

  it("writes a time of day", () => {
    expect(timeOf(dayOf("2026-11-24"), 8 * 60 + 5)).toBe("2026-11-24T08:05")
  })
})
