import { afterAll, beforeAll, expect, it } from "vitest"
import { z } from "zod"
import { ageDay, ageFacts, agedByHand } from "../../fixtures/age-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(ageFacts, { today: ageDay })
})

afterAll(() => engine.close())

it.each(agedByHand)("people stand in the band of their age: $condition", async ({ condition, ids }) => {
  const rows = await engine.ask(
    {
      sql: `select p.patient_id from patient_month as p
        where p.as_of = cast($as_of as date) and ${condition} order by p.patient_id`,
      Row: z.object({ patient_id: z.string() }),
    },
    { as_of: ageDay },
  )

  expect(rows.map((row) => row.patient_id)).toEqual(ids)
})
