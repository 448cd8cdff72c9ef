import { describe, expect, it } from "vitest"
import { z } from "zod"
import { spreadByHand, spreadDay, spreadFacts } from "../../fixtures/sodium-spread"
import { valueFacts, valuesByHand } from "../../fixtures/value-facts"
import { valueDay } from "../../fixtures/value-person"
import { openEngine } from "../../helpers/open-engine"

const Row = z.object({ patient_id: z.string() })

describe.each([
  { name: "the values a screen shows of people", today: valueDay, facts: valueFacts, byHand: valuesByHand },
  { name: "the clinic's sodium", today: spreadDay, facts: spreadFacts, byHand: spreadByHand },
])("$name", ({ today, facts, byHand }) => {
  it("are what was worked out by hand", async () => {
    const engine = await openEngine(facts, { today })
    const found = []
    for (const { condition } of byHand) {
      const sql = `select p.patient_id from patient_month as p
        where p.as_of = cast($as_of as date) and ${condition} order by p.patient_id`
      const rows = await engine.ask({ sql, Row }, { as_of: today })
      found.push({ condition, ids: rows.map((row) => row.patient_id) })
    }
    engine.close()

    expect(found).toEqual(byHand.map(({ condition, ids }) => ({ condition, ids: ids.toSorted() })))
  })
})
