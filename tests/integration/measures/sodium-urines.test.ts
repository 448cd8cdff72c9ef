import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { sodiumCounts } from "../../../lib/questions/sodium-counts"
import { sodiumEffects } from "../../../lib/questions/sodium-effects"
import { sodiumDoubtfulUrines } from "../../../lib/questions/sodium-people"
import { sodiumUrines } from "../../../lib/questions/sodium-urines"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

// Its 12 months begin on 1 November 2025.
const today = "2026-10-31"
const day = { as_of: today }

/** A 24-hour urine of 100 mmol of sodium with its creatinine in mmol; null is none. */
function urine(name: string, on: string, creatinine: number | null, comparator: string | null = null) {
  const unit = { unit: "mmol/d" }
  return [
    raw.lab(name, "urine_sodium_24h", `${on} 08:00:00`, 100, unit),
    ...(creatinine === null
      ? []
      : [raw.lab(name, "urine_creatinine_24h", `${on} 08:00:00`, creatinine, { ...unit, comparator })]),
  ]
}

// At least 4 mmol in women (Cogswell 2015, Table 5, survey of Land; read in PMC5497310). Everybody here is a woman.
const labs = [
  ...urine("complete", "2026-10-01", 4),
  ...urine("first day of the year", "2025-11-01", 3.9),
  ...urine("a day too old", "2025-10-31", 3.9),
  ...urine("doubtful twice", "2026-02-01", 2),
  ...urine("doubtful twice", "2026-10-01", 3),
  ...urine("no creatinine", "2026-10-01", null),
  ...urine("only under 5", "2026-10-01", 5, "<"),
  ...urine("without CKD", "2026-10-01", 3),
]
const diet = [
  raw.diet("far above", "2026-10-01", 3690),
  raw.diet("low and above", "2026-10-01", 9000),
  raw.diet("at the limit", "2026-10-01", 2000),
]
const names = [...new Set([...labs, ...diet].map((row) => String(row["patient_id"])))]

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: names.map((name) => raw.person(name)),
      visits_raw: names.map((name) => raw.visit(name, today)),
      problems_raw: names.filter((name) => name !== "without CKD").map((name) => raw.problem(name, "N18.31")),
      readings_raw: [raw.reading("low and above", "2026-10-20", 100)],
      labs_raw: labs,
      diet_raw: diet,
    },
    { today },
  )
})

afterAll(() => engine.close())

describe("the 24-hour urines of twelve months", () => {
  it("are counted as complete, doubtful and not judged, with what is missing", async () => {
    const rows = await engine.ask(sodiumUrines, day)

    expect(rows.map((row) => [row.completeness, row.missing, row.collections, row.people])).toEqual([
      ["cannot be judged", "creatinine", 1, 1],
      ["cannot be judged", "number", 1, 1],
      ["complete", null, 1, 1],
      ["doubtful", null, 3, 2],
    ])
  })

  it("list of whom one is doubtful, each once with the latest", async () => {
    const rows = await engine.ask(sodiumDoubtfulUrines, { ...day, detail: null, limit: 1000, offset: 0 })
    const [counts] = await engine.ask(sodiumCounts, day)

    expect(rows.map((row) => [row.public_id, row.urine_on, row.creatinine_mmol])).toEqual([
      ["public doubtful twice", "2026-10-01", 3],
      ["public first day of the year", "2025-11-01", 3.9],
    ])
    expect(counts?.doubtful_urine).toBe(2)
  })
})

describe("what less sodium did in trials", () => {
  it("is told for 1,000 mg and for the way of those above the limit", async () => {
    const rows = await engine.ask(sodiumEffects, { ...day, sodium_limit_mg: 2000 })
    const counted = rows.find((row) => row.series === "counted days")

    expect(rows[0]).toMatchObject({ series: null, n: 0, above_mg: 1000 })
    // 1,000 mg are 43.5 mmol: 1.1 mmHg for each 50 (Huang 2020), 6.91 for 73.51 (Cochrane 2021).
    expect(rows[0]?.fall_least).toBeCloseTo(0.957, 3)
    expect(rows[0]?.fall_most).toBeCloseTo(4.089, 3)
    // 1,690 mg above it are 73.51 mmol; who has a low pressure is left out.
    expect(counted).toMatchObject({ n: 1, above_mg: 1690 })
    expect(counted?.fall_most).toBeCloseTo(6.91, 2)
  })

  it("names nobody where all are within the limit", async () => {
    const rows = await engine.ask(sodiumEffects, { ...day, sodium_limit_mg: 10000 })

    expect(rows.map((row) => row.series)).toEqual([null])
  })
})
