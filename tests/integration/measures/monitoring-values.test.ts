import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { patientMonitoringEvidence } from "../../../lib/questions/patient-monitoring-evidence"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2026-10-31"
const ids = [
  "declining",
  "at risk",
  "dialysed by code",
  "dialysed by visit",
  "transplanted",
  "watched",
  "old",
]

// 65 on the day; a man with an eGFR of 19 and an ACR of 30
const riskAt65 = [...ids.slice(1, 5)].flatMap((id) => [
  raw.lab(id, "egfr", "2026-10-01", 19),
  raw.lab(id, "uacr", "2026-10-03", 30),
])

const facts = {
  staff_raw: [{ staff_id: "D-1", name: "Ines Dahl", role: "dietitian" }],
  patient_records_raw: ids.map((id) => raw.person(id, { birth_date: "1961-01-01", sex: "male" })),
  visits_raw: [
    ...ids.map((id) => raw.visit(id, today)),
    raw.visit("dialysed by visit", "2026-10-02", { kind: "dialysis" }),
    raw.visit("watched", "2026-03-02", { clinician_id: "D-1", line: 700 }),
    raw.visit("watched", "2025-03-02", { clinician_id: "D-1", line: 701 }),
    raw.visit("old", "2025-10-31", { clinician_id: "D-1", line: 702 }),
  ],
  problems_raw: [raw.problem("dialysed by code", "Z99.2"), raw.problem("transplanted", "Z94.0")],
  labs_raw: [
    ...riskAt65,
    raw.lab("declining", "egfr", "2025-01-01", 50, { line: 800 }),
    raw.lab("declining", "egfr", "2025-04-11", 46, { line: 801 }),
    raw.lab("declining", "egfr", "2025-12-15", 43, { line: 802 }),
    raw.lab("declining", "egfr", "2026-08-30", 41, { line: 803 }),
    raw.lab("watched", "egfr", "2026-06-01", 40, { line: 804 }),
    raw.lab("watched", "egfr", "2026-07-01", 60, { comparator: ">", line: 805 }),
    raw.lab("watched", "egfr", "2025-10-31", 40, { line: 806 }),
    raw.lab("watched", "uacr", "2026-02-01", 12, { line: 807 }),
    raw.lab("old", "egfr", "2025-10-31", 40, { line: 808 }),
    raw.lab("old", "uacr", "2025-10-31", 12, { line: 809 }),
  ],
  diet_raw: [
    raw.diet("watched", "2026-03-01", 1900, { line: 810 }),
    raw.diet("watched", "2026-05-01", 2300, { line: 811 }),
    raw.diet("old", "2025-10-31", 2500, { line: 812 }),
  ],
  readings_raw: [
    ...Array.from({ length: 12 }, (_, n) =>
      raw.reading("watched", `2026-01-0${1 + (n % 3)} 0${6 + Math.floor(n / 3)}:00:00`, 128 + (n % 2), {
        setting: "home",
        line: 820 + n,
      }),
    ),
  ],
}

const Values = z.object({
  slope: z.number().nullable(),
  slope_standard_error: z.number().nullable(),
  slope_points: z.number().nullable(),
  risk_acr_on: z.string().nullable(),
  failure_risk_2_years: z.number().nullable(),
  failure_risk_5_years: z.number().nullable(),
  tests_due: z.number().nullable(),
  egfr_days_in_year: z.number(),
  sodium_mg: z.number().nullable(),
  sodium_in_year_mg: z.number().nullable(),
  sodium_in_year_on: z.string().nullable(),
  home_average_on: z.string().nullable(),
  dietitian_seen_on: z.string().nullable(),
  is_seen_by_dietitian_in_year: z.boolean(),
})

let engine: TestEngine
let elsewhere: TestEngine

beforeAll(async () => {
  engine = await openEngine(facts, { today })
  elsewhere = await openEngine(facts, { today, settings: { "kfre.region": "other", "kfre.maxGapDays": 2 } })
})

afterAll(() => {
  engine.close()
  elsewhere.close()
})

async function valuesOf(id: string, of = engine) {
  const [row] = await of.ask(
    {
      sql: `select ${Object.keys(Values.shape).join(", ")} from patient_month as p
        where p.public_id = $public_id and p.as_of = cast($as_of as date)`,
      Row: Values,
    },
    { public_id: `public ${id}`, as_of: today, home_window_days: 30 },
  )
  return row
}

async function evidenceOf(id: string) {
  return engine.ask(patientMonitoringEvidence, {
    public_id: `public ${id}`,
    as_of: today,
    home_window_days: 30,
  })
}

describe("the slope", () => {
  // The slope worked as fractions; the standard error by another implementation of least squares (Python 3, statistics.linear_regression).
  it("has the value and the standard error that were worked outside", async () => {
    const values = await valuesOf("declining")

    expect(values).toMatchObject({ slope: -5, slope_points: 4 })
    expect(values?.slope_standard_error).toBeCloseTo(1.1868135869, 8)
  })

  it("names every result it was drawn through", async () => {
    const evidence = await evidenceOf("declining")

    expect(evidence.find((fact) => fact.topic === "slope")).toMatchObject({
      first: -5,
      since: "2025-01-01",
      day: "2026-08-30",
      rows: 4,
      sources: ["labs:1:800", "labs:1:801", "labs:1:802", "labs:1:803"],
    })
  })
})

describe("the failure risk", () => {
  // The printed values for a man of 65, eGFR 19, ACR 30: 6.31% and 22.31% outside North America (documentation of the kfre
  // library); the North American pair from the same equation.
  it("is that of the clinic's region", async () => {
    const [here, there] = [await valuesOf("at risk"), await valuesOf("at risk", elsewhere)]

    expect(here?.failure_risk_2_years).toBeCloseTo(0.092838, 6)
    expect(here?.failure_risk_5_years).toBeCloseTo(0.262281, 6)
    expect(there?.failure_risk_2_years).toBeCloseTo(0.063123, 6)
    expect(there?.failure_risk_5_years).toBeCloseTo(0.223128, 6)
    expect(here?.risk_acr_on).toBe("2026-10-03")
  })

  it.each(["dialysed by code", "dialysed by visit", "transplanted"])("is not computed for %s", async (id) => {
    expect(await valuesOf(id)).toMatchObject({ failure_risk_2_years: null, failure_risk_5_years: null })
  })

  it("shows the eGFR and the ACR it was worked from", async () => {
    const evidence = await evidenceOf("at risk")

    expect(evidence.filter((fact) => fact.evidence === "failure risk")).toMatchObject([
      { topic: "failure risk", day: "2026-10-01", sources: [expect.stringMatching(/^labs:/)] },
      { topic: "risk acr", day: "2026-10-03", first: 30, sources: [expect.stringMatching(/^labs:/)] },
    ])
  })
})

describe("tests, diet, home readings and visits", () => {
  it("stand in the row with the days that decide", async () => {
    expect(await valuesOf("watched")).toMatchObject({
      tests_due: 2,
      egfr_days_in_year: 2,
      sodium_mg: null,
      sodium_in_year_mg: 2100,
      sodium_in_year_on: "2026-05-01",
      home_average_on: "2026-01-03",
      dietitian_seen_on: "2026-03-02",
      is_seen_by_dietitian_in_year: true,
    })
  })

  it("name their rows", async () => {
    const evidence = (await evidenceOf("watched")).filter((fact) => fact.evidence !== "failure risk")

    expect(evidence.map(({ topic, first, rows, sources }) => ({ topic, first, rows, sources }))).toEqual([
      { topic: "diet mean", first: 2100, rows: 2, sources: ["diet:1:810", "diet:1:811"] },
      { topic: "dietitian visit", first: null, rows: 1, sources: ["visits:1:700"] },
      { topic: "home average", first: 129, rows: 12, sources: expect.any(Array) },
      { topic: "acr test", first: 12, rows: 1, sources: ["labs:1:807"] },
      { topic: "egfr tests", first: null, rows: 2, sources: ["labs:1:805", "labs:1:804"] },
      { topic: "tests due", first: 2, rows: 1, sources: ["labs:1:804", "labs:1:807"] },
    ])
    expect(evidence.find((fact) => fact.topic === "home average")?.sources).toHaveLength(12)
  })

  it("that are more than 12 months old are named as the last there were", async () => {
    const evidence = (await evidenceOf("old")).filter((fact) => fact.evidence !== "failure risk")

    expect(await valuesOf("old")).toMatchObject({
      egfr_days_in_year: 0,
      sodium_in_year_mg: null,
      is_seen_by_dietitian_in_year: false,
    })
    expect(evidence.map(({ topic, day, rows, sources }) => ({ topic, day, rows, sources }))).toEqual([
      { topic: "last diet record", day: "2025-10-31", rows: 1, sources: ["diet:1:812"] },
      { topic: "dietitian visit", day: "2025-10-31", rows: 1, sources: ["visits:1:702"] },
      { topic: "acr test", day: "2025-10-31", rows: 1, sources: ["labs:1:809"] },
      { topic: "egfr tests", day: "2025-10-31", rows: 0, sources: ["labs:1:808"] },
      { topic: "tests due", day: null, rows: 1, sources: ["labs:1:808", "labs:1:809"] },
    ])
  })
})
