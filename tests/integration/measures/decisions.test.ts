import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2026-10-31"

// A decision without an end holds for 12 months: up to the day before made_on + 12 months.
const decisions = {
  "made today": { made_on: today },
  "made tomorrow": { made_on: "2026-11-01" },
  "made a year ago": { made_on: "2025-10-31" },
  "made a year ago tomorrow": { made_on: "2025-11-01" },
  "ends today": { made_on: "2026-01-01", ends_on: today },
  "ends tomorrow": { made_on: "2024-01-01", ends_on: "2026-11-01" },
  "undone today": { made_on: "2026-01-01", undone_on: today },
  "undone tomorrow": { made_on: "2026-01-01", undone_on: "2026-11-01" },
}

const ids = [...Object.keys(decisions), "pressure", "ras_blocker", "sglt2_inhibitor"]

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: ids.map((id) => raw.person(id)),
      visits_raw: ids.map((id) => raw.visit(id, today)),
      problems_raw: ids.map((id) => raw.problem(id, "N18.30")),
      labs_raw: ids.map((id) => raw.lab(id, "egfr", "2026-06-01", 40)),
      decisions: [
        ...Object.entries(decisions).map(([id, days]) => ({ ...days, ...about(id, "diet") })),
        ...["pressure", "ras_blocker", "sglt2_inhibitor"].map((id) => ({
          made_on: "2026-06-01",
          ...about(id, id),
        })),
      ],
    },
    { today },
  )
})

afterAll(() => engine.close())

function about(id: string, topic: string) {
  return { patient_id: id, topic, kind: "patient declined" }
}

async function idsWhere(condition: string) {
  const rows = await engine.ask(
    {
      sql: `select p.patient_id from patient_month as p
        join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
        where p.as_of = cast($as_of as date) and ${condition} order by p.patient_id`,
      Row: z.object({ patient_id: z.string() }),
    },
    { as_of: today },
  )
  return rows.map((row) => row.patient_id)
}

describe("a clinician's decision", () => {
  it("is in force from the day it was made to the day before it ends, unless undone", async () => {
    const inForce = ["ends tomorrow", "made a year ago tomorrow", "made today", "undone tomorrow"]

    expect(await idsWhere("p.diet_decision = 'patient declined'")).toEqual(inForce)
    expect(await idsWhere("s.seen_by_dietitian = 'exception'")).toEqual(inForce)
  })

  it.each([
    ["bp_decision", "pressure"],
    ["ras_decision", "ras_blocker"],
    ["sglt2_decision", "sglt2_inhibitor"],
  ])("stands in %s by its topic alone", async (column, topic) => {
    expect(await idsWhere(`p.${column} is not null`)).toEqual([topic])
  })
})
