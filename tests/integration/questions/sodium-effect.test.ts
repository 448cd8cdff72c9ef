import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { patientSodium } from "../../../lib/questions/patient-sodium"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2026-10-31"
const people = [
  "far above",
  "just above",
  "at the limit",
  "unknown",
  "low",
  "palliative",
  "pregnant",
  "long ago",
]
let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: people.map((name) => raw.person(name)),
      visits_raw: people.map((name) => raw.visit(name, today)),
      diet_raw: [
        raw.diet("far above", "2026-10-01", 3500),
        raw.diet("far above", "2026-10-02", 3880),
        raw.diet("just above", "2026-10-01", 2001),
        raw.diet("at the limit", "2026-10-01", 2000),
        ...["low", "palliative", "pregnant"].map((name) => raw.diet(name, "2026-10-01", 3690)),
        raw.diet("long ago", "2025-10-31", 3690),
      ],
      readings_raw: [raw.reading("far above", "2026-10-20", 110), raw.reading("low", "2026-10-20", 109)],
      problems_raw: [
        raw.problem("palliative", "Z51.5"),
        raw.problem("pregnant", "O09", { onset_on: "2026-07-01" }),
      ],
    },
    { today },
  )
})

afterAll(() => engine.close())

const of = async (name: string) =>
  (await engine.ask(patientSodium, { public_id: `public ${name}`, as_of: today, sodium_limit_mg: 2000 }))[0]

describe("the expected effect of getting to the sodium limit", () => {
  it("is the range of the trials for what is above the limit", async () => {
    // 1,690 mg are 73.51 mmol: 6.91 mmHg in kidney disease (Cochrane 2021), 73.51 x 1.10 / 50 in all trials (Huang 2020).
    const sodium = await of("far above")

    expect(sodium).toMatchObject({ sodium_mg: 3690, above_mg: 1690, limit_mg: 2000, sodium_records: 2 })
    expect(sodium?.fall_most).toBeCloseTo(6.91, 2)
    expect(sodium?.fall_least).toBeCloseTo(1.617, 3)
  })

  it.each(["at the limit", "unknown", "long ago"])("is not told of somebody %s", async (name) => {
    expect(await of(name)).toMatchObject({ above_mg: null, fall_least: null, fall_most: null })
  })

  it("begins right above the limit", async () => {
    expect(await of("just above")).toMatchObject({ above_mg: 1 })
  })

  it.each(["low", "palliative", "pregnant"])("says nothing of the pressure of somebody %s", async (name) => {
    expect(await of(name)).toMatchObject({ above_mg: 1690, fall_least: null, fall_most: null })
  })

  // Mean differences of published trials and their reductions of sodium, none of which the range was made of.
  it.each([
    ["Huang 2020, BMJ 368:m315, abstract (read): all trials together", 130, 4.26],
    ["the same, trials of more than 15 days", 50, 2.13],
    ["Filippini 2021, Circulation 143:1542 (from memory)", 100, 5.56],
    ["Sacks 2001, N Engl J Med 344:3, control diet, 142 to 65 mmol (read in a copy)", 77, 6.7],
  ])("holds what was found by %s", async (_source, mmol, systolic) => {
    const Range = z.object({ least: z.number(), most: z.number() })
    const sql = `select systolic_fall_least(${mmol} * 22.99) as least, systolic_fall_most(${mmol} * 22.99) as most`

    const [range] = await engine.ask({ sql, Row: Range })

    expect(range?.least).toBeLessThan(systolic)
    expect(range?.most).toBeGreaterThan(systolic)
  })
})
