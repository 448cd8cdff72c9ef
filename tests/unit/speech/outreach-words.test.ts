import { expect, test } from "vitest"
import { defaultSettings } from "../../../lib/domain/settings"
import { placeWords, reasonWords } from "../../../lib/speech/outreach-words"

const none = { factOn: null, value: null, secondValue: null, comparator: null, fallsOutOn: null }
const said = (fact: Partial<Parameters<typeof reasonWords>[0]> & { reason: string }) =>
  reasonWords({ ...none, ...fact }, defaultSettings).replaceAll("\u00a0", " ")

test("a reason is said with its value and its day, what is due with the month it was done last", () => {
  expect(said({ reason: "pressure-very-high", value: 188, secondValue: 112, factOn: "2026-10-30" })).toBe(
    "Pressure very high 188/112, 30 Oct 2026",
  )
  expect(said({ reason: "potassium-high", value: 5.8, comparator: ">", factOn: "2026-10-02" })).toBe(
    "Potassium high >5.8 mmol/L, 2 Oct 2026",
  )
  expect(said({ reason: "urine-albumin-due", factOn: "2025-08-14" })).toBe(
    "Urine albumin overdue, last Aug 2025",
  )
  expect(said({ reason: "pressure-not-measured" })).toBe(
    `No pressure in ${defaultSettings["bp.windowMonths"]} months, none on record`,
  )
  expect(said({ reason: "urine-falls-out", factOn: "2025-11-20", fallsOutOn: "2026-11-20" })).toBe(
    "Urine albumin falls out of its window, from 20 Nov 2026",
  )
})

test("a place in the order is said by everything that decides it, in that order", () => {
  const words = placeWords({
    ...{ tier: "soon", risk_cell: "very high", failure_risk_2_years: 0.123, reasons: 3 },
    ...{ oldest_on: "2025-08-14", next_visit_on: null },
  })

  expect(words.replaceAll("\u00a0", " ")).toBe(
    "soon, risk very high, 2-year failure risk 12.3%, 3 reasons, oldest fact 14 Aug 2025, no visit booked",
  )
})
