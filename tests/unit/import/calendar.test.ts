import { describe, expect, test } from "vitest"
import { dayFromText, textOfDay, yearsBefore } from "../../../lib/import/calendar"

const dayLength = 86_400_000

describe("days of the calendar", () => {
  test("agree with the platform's own calendar over four centuries", () => {
    const days = Array.from({ length: 160_001 }, (_, place) => place - 80_000)

    const wrong = days.filter(
      (day) => dayFromText(new Date(day * dayLength).toISOString().slice(0, 10)) !== day,
    )

    expect(wrong).toEqual([])
  })

  test.each([
    "2026-02-29",
    "1900-02-29",
    "2026-04-31",
    "2026-00-10",
    "2026-13-01",
    "2026-01-00",
    "0000-01-01",
  ])("%s is no day", (text) => {
    expect(dayFromText(text)).toBeNull()
  })

  test.each(["2000-02-29", "2024-02-29", "9999-12-31", "0001-01-01"])("%s is a day", (text) => {
    expect(textOfDay(dayFromText(text) ?? Number.NaN)).toBe(text)
  })

  test.each([
    "2026-1-31",
    "31.01.2026",
    "2026/01/31",
    "20260131",
    " 2026-01-31",
    "2026-01-31 ",
    "2026-01-3x",
    "",
  ])("%j is not written as a day", (text) => {
    expect(dayFromText(text)).toBeNull()
  })
})

test.each([
  ["2026-03-15", "1906-03-15"],
  ["2024-02-29", "1904-02-29"],
  ["2020-02-29", "1900-02-28"],
])("120 years before %s is %s", (day, earlier) => {
  expect(textOfDay(yearsBefore(dayFromText(day) ?? Number.NaN, 120))).toBe(earlier)
})
