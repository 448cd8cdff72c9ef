import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { measures } from "../../../lib/measures/index"
import { measureInMonth } from "../../../lib/questions/measure-in-month"
import { openEngine, type RawFacts, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2026-10-20"
const people = [
  "at target",
  "above",
  "of last month",
  "of a year ago",
  "not measured",
  "on dialysis",
  "started",
]

/** People with chronic kidney disease whose only readings are those named here. */
const facts: RawFacts = {
  patient_records_raw: people.map((id) => raw.person(id)),
  visits_raw: people.flatMap((id) => [raw.visit(id, "2025-09-01"), raw.visit(id, today)]),
  problems_raw: [...people.map((id) => raw.problem(id, "N18.30")), raw.problem("on dialysis", "N18.6")],
  readings_raw: [
    raw.reading("at target", "2026-10-01", 125),
    raw.reading("above", today, 140),
    raw.reading("of last month", "2026-09-30", 125),
    raw.reading("of a year ago", "2025-10-20", 125),
    raw.reading("on dialysis", "2026-10-05", 125),
    raw.reading("started", "2026-10-05", 150),
  ],
  // Three classes, the newest begun after the reading: not known whether they are enough.
  orders_raw: [
    raw.order("started", "lisinopril 10 mg", "2025-01-01"),
    raw.order("started", "amlodipine 5 mg", "2025-01-01"),
    raw.order("started", "chlorthalidone 25 mg", "2026-10-10"),
  ],
}

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(facts, { today })
})

afterAll(() => engine.close())

async function ofMonth(measureId: string, asOf: string) {
  const rows = await engine.ask(measureInMonth)
  const row = rows.find((one) => one.measure_id === measureId && one.as_of === asOf)
  return row ? [row.met, row.not_met, row.unknown] : null
}

describe("the readings of the month only", () => {
  it.each([
    [today, [1, 2, 0]],
    ["2026-09-30", [1, 0, 0]],
    ["2026-08-31", [0, 0, 0]],
    ["2025-10-31", [1, 0, 0]],
  ])("count whoever was measured in the month of %s and nobody else", async (asOf, counts) => {
    expect(await ofMonth("bp-at-target", asOf)).toEqual(counts)
  })

  it("keep a standing that is not known although the reading is of the month", async () => {
    expect(await ofMonth("uncontrolled-on-several-classes", today)).toEqual([0, 0, 1])
  })

  it("are there for every measure with a deciding fact and for no other", async () => {
    const rows = await engine.ask(measureInMonth)

    expect([...new Set(rows.map((row) => row.measure_id))].sort()).toEqual(
      measures.flatMap((measure) => (measure.fact === null ? [] : [measure.id])).sort(),
    )
  })
})
