import { describe, expect, test } from "vitest"
import { measureHref, parseMeasureView } from "../../../app/(clinic)/measures/search-params"
import { monthHref, parseMonthView } from "../../../app/(clinic)/search-params"

describe("the month of an address", () => {
  test("reads a month and leaves the running one out", () => {
    expect(parseMonthView({ month: "2026-09" })).toEqual({ month: "2026-09" })
    expect(monthHref({ month: "2026-09" })).toBe("/?month=2026-09")
    expect(monthHref({ month: null })).toBe("/")
  })

  test.each(["2026-13", "2026-9", "yesterday", "", "2026-09-30"])(
    "takes %j for the running month",
    (month) => {
      expect(parseMonthView({ month })).toEqual({ month: null })
    },
  )

  test("takes the first of a parameter said twice", () => {
    expect(parseMonthView({ month: ["2026-08", "2026-07"] })).toEqual({ month: "2026-08" })
  })
})

describe("the list of a measure", () => {
  test("comes back from its own address", () => {
    const view = parseMeasureView({ month: "2026-09", standing: "not-met", clinician: "", page: "3" })

    const address = new URL(measureHref("bp-at-target", view, "people"), "http://localhost")

    expect(address.pathname).toBe("/measures/bp-at-target")
    expect(address.hash).toBe("#people")
    expect(parseMeasureView(Object.fromEntries(address.searchParams))).toEqual(view)
  })

  test("falls back where an address says nonsense", () => {
    const view = parseMeasureView({ standing: "everyone", change: "moved", page: "-1", month: "x" })

    expect(measureHref("bp-at-target", view)).toBe("/measures/bp-at-target")
  })
})
