import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { defaultSettings } from "../../../lib/domain/settings"
import { paramsOf } from "../../../lib/engine/compute"
import { findMeasure, measures } from "../../../lib/measures/index"
import { measurePeople } from "../../../lib/questions/measure-people"
import { patientEvidence } from "../../../lib/questions/patient-evidence"
import { decidedByHand, decisionDay, decisionFacts } from "../../fixtures/decision-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(decisionFacts, { today: decisionDay })
})

afterAll(() => engine.close())

// A decision is in force from the day it was made to the day before it ends, unless undone, and by its topic alone.
describe("a clinician's decision", () => {
  it.each(decidedByHand)(
    "is in force where it was worked out by hand: $condition",
    async ({ condition, ids }) => {
      const rows = await engine.ask(
        {
          sql: `select p.patient_id from patient_month as p
        join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
        where p.as_of = cast($as_of as date) and ${condition} order by p.patient_id`,
          Row: z.object({ patient_id: z.string() }),
        },
        { as_of: decisionDay },
      )

      expect(rows.map((row) => row.patient_id)).toEqual(ids)
    },
  )
})

const atDietitian = findMeasure("seen-by-dietitian")

it("stands in the list of its measure with its kind and until when it holds, and only while it is in force", async () => {
  const narrowed = { detail: null, reason: null, clinician: null, site: null, sex: null, age: null }
  const rows = await engine.ask(measurePeople(atDietitian ?? expect.unreachable()), {
    ...{ as_of: decisionDay, earlier_as_of: "2026-09-30", standing: "exception", change: null, cause: null },
    ...{ ...narrowed, language: null, race: null, ethnicity: null, limit: 100, offset: 0 },
  })

  expect(rows.map((row) => [row.patient_id, row.decided, row.decided_until]).toSorted()).toEqual([
    ["ends tomorrow", "patient declined", "2026-11-01"],
    ["made a year ago tomorrow", "patient declined", "2026-11-01"],
    ["made today", "patient declined", "2027-10-31"],
    ["undone tomorrow", "patient declined", "2027-01-01"],
  ])
})

it.each([
  ["made a year ago tomorrow", [{ detail: "patient declined", since: "2025-11-01", day: "2026-11-01" }]],
  ["made a year ago", []],
  ["undone today", []],
])("is the evidence of a standing while it is in force: %s", async (id, expected) => {
  const rows = await engine.ask(patientEvidence, {
    ...{ public_id: `public ${id}`, as_of: decisionDay, home_window_days: 14 },
    ...paramsOf(measures, defaultSettings),
  })

  expect(rows.filter((row) => row.topic === "decision")).toMatchObject(expected)
})
