import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
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
