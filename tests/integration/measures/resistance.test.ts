import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { resistanceDetails } from "../../../lib/questions/resistance-details"
import { resistanceFacts } from "../../fixtures/resistance-facts"
import { resistancePeople, today } from "../../fixtures/resistance-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(resistanceFacts, { today })
})

afterAll(() => engine.close())

const Regimen = z.object({
  name: z.string(),
  half: z.number().nullable(),
  maximum: z.number().nullable(),
  below: z.number().nullable(),
  unknown: z.number().nullable(),
  gapDays: z.number().nullable(),
})

describe("the regimen of those on several classes", () => {
  it("is what was worked out by hand", async () => {
    const rows = await engine.ask(
      {
        sql: `select p.patient_id as name, p.classes_at_half as half, p.classes_at_maximum as maximum,
            p.classes_below_half as below, p.classes_dose_unknown as unknown, p.supply_gap_days as "gapDays"
          from patient_month as p where p.as_of = cast($as_of as date)`,
        Row: Regimen,
      },
      { as_of: today },
    )
    const byName = new Map(rows.map(({ name, ...row }) => [name, row]))

    const found = resistancePeople.map(({ name }) => ({ name, ...byName.get(name) }))

    expect(found).toEqual(resistancePeople.map(({ name, byHand }) => ({ name, ...byHand })))
  })

  it.each(resistanceDetails.map((detail) => [detail.id, detail] as const))(
    "names the people of the part %s",
    async (id, detail) => {
      const rows = await engine.ask(
        {
          sql: `select p.patient_id as name from patient_month as p
            join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
            where p.as_of = cast($as_of as date) and s.uncontrolled_on_several_classes = 'met' and (${detail.sql})
            order by p.patient_id`,
          Row: z.object({ name: z.string() }),
        },
        { as_of: today },
      )

      const byHand = resistancePeople.flatMap(({ name, parts }) => (parts.includes(id) ? [name] : []))
      expect(rows.map((row) => row.name)).toEqual(byHand.toSorted())
      expect(byHand.length).toBeGreaterThan(0)
    },
  )
})
