import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { patientDiet } from "../../../lib/questions/patient-diet"
import type { Param } from "../../../lib/engine/values"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2026-10-31"
const day = "2026-10-01"

type Collection = {
  name: string
  sex?: string
  /** Creatinines of the collection in mmol, by the hour at which they are dated; the sodium is of 08:00. */
  creatinines: { mmol: number; at?: string; own?: Record<string, Param> }[]
  expected: { completeness: string; missing: string | null; creatinine_mmol: number | null }
}

const found = (completeness: string, creatinine: number | null, missing: string | null = null) => ({
  completeness,
  missing,
  creatinine_mmol: creatinine,
})

// Borders as printed: at least 4 mmol in women and 6 in men (Cogswell 2015, Table 5, survey of Land; read in PMC5497310).
const collections: Collection[] = [
  { name: "woman at 4", creatinines: [{ mmol: 4 }], expected: found("complete", 4) },
  { name: "woman under 4", creatinines: [{ mmol: 3.9 }], expected: found("doubtful", 3.9) },
  { name: "man at 6", sex: "male", creatinines: [{ mmol: 6 }], expected: found("complete", 6) },
  { name: "man under 6", sex: "male", creatinines: [{ mmol: 5.9 }], expected: found("doubtful", 5.9) },
  { name: "no creatinine", creatinines: [], expected: found("cannot be judged", null, "creatinine") },
  {
    name: "creatinine of another day",
    creatinines: [{ mmol: 9, at: "2026-10-02 08:00:00" }],
    expected: found("cannot be judged", null, "creatinine"),
  },
  {
    name: "sex unknown",
    sex: "unknown",
    creatinines: [{ mmol: 9 }],
    expected: found("cannot be judged", 9, "sex"),
  },
  {
    name: "under 4 by comparator",
    creatinines: [{ mmol: 4, own: { comparator: "<" } }],
    expected: found("doubtful", 4),
  },
  {
    name: "under 5 only",
    creatinines: [{ mmol: 5, own: { comparator: "<" } }],
    expected: found("cannot be judged", 5, "number"),
  },
  {
    name: "over 3 only",
    creatinines: [{ mmol: 3, own: { comparator: ">" } }],
    expected: found("cannot be judged", 3, "number"),
  },
  {
    name: "over 4 by comparator",
    creatinines: [{ mmol: 4, own: { comparator: ">" } }],
    expected: found("complete", 4),
  },
  {
    name: "nearest of two",
    creatinines: [
      { mmol: 3, at: `${day} 08:10:00` },
      { mmol: 9, at: `${day} 11:00:00` },
    ],
    expected: found("doubtful", 3),
  },
]

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: collections.map(({ name, sex }) =>
        raw.person(name, sex === undefined ? {} : { sex }),
      ),
      visits_raw: collections.map(({ name }) => raw.visit(name, today)),
      labs_raw: collections.flatMap(({ name, creatinines }) => [
        raw.lab(name, "urine_sodium_24h", `${day} 08:00:00`, 100, { unit: "mmol/d" }),
        ...creatinines.map(({ mmol, at, own }) =>
          raw.lab(name, "urine_creatinine_24h", at ?? `${day} 08:00:00`, mmol, { unit: "mmol/d", ...own }),
        ),
      ]),
      diet_raw: [raw.diet("woman at 4", "2026-10-05", 2500)],
    },
    { today },
  )
})

afterAll(() => engine.close())

describe("a 24-hour urine", () => {
  it.each(collections)("is judged by its creatinine: $name", async ({ name, expected }) => {
    const rows = await engine.ask(patientDiet, { public_id: `public ${name}`, as_of: today })

    const [urine] = rows.filter((row) => row.series === "24-hour urine")
    expect(urine).toMatchObject(expected)
    expect(urine?.sources).toHaveLength(expected.creatinine_mmol === null ? 1 : 2)
  })

  it("counts in every mean, complete or not", async () => {
    const Mean = z.object({ name: z.string(), mg: z.number() })
    const means = await engine.ask({
      sql: "select patient_id as name, cast(sodium_mg as double) as mg from diet_at where as_of = date '2026-10-31'",
      Row: Mean,
    })

    expect(means.find(({ name }) => name === "man under 6")?.mg).toBeCloseTo(2299, 6)
  })

  it("leaves another record without a judgement", async () => {
    const rows = await engine.ask(patientDiet, { public_id: "public woman at 4", as_of: today })

    expect(rows.find((row) => row.series === "counted days")).toMatchObject({
      completeness: null,
      missing: null,
    })
  })
})
