import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { cautionIds, cautions, cautionsSql } from "../../../lib/measures/cautions"
import { patientCautions } from "../../../lib/questions/patient-cautions"
import { cautionFacts } from "../../fixtures/caution-facts"
import { cautionPeople } from "../../fixtures/caution-people"
import { today } from "../../fixtures/caution-person"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

const names = cautionPeople.map((person) => person.name)

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(cautionFacts, { today })
})

afterAll(() => engine.close())

const Held = z.object({ name: z.string(), cautions: z.array(z.string()) })

async function heldByName() {
  const rows = await engine.ask(
    {
      sql: `select p.patient_id as name, ${cautionsSql()} as cautions from patient_month as p
        where p.as_of = cast($as_of as date) order by p.patient_id`,
      Row: Held,
    },
    { as_of: today },
  )
  return new Map(rows.map((row) => [row.name, row.cautions]))
}

describe("the cautions", () => {
  it("have a name of their own for every person of the test", () => {
    expect(new Set(names).size).toBe(names.length)
  })

  it("are as many as are declared, each with its words, its source and a sentence that defers", () => {
    expect(cautions.map((caution) => caution.id).toSorted()).toEqual(cautionIds.toSorted())
    for (const caution of cautions) {
      expect(caution.words.length).toBeGreaterThan(20)
      expect(caution.source).toMatch(/doi:10\.|common practice, no source/)
      expect(caution.action).toMatch(/Clinicians decide; local policy applies\.$/)
    }
  })

  it("hold for the people they were put for by hand, and for nobody else", async () => {
    const held = await heldByName()

    const found = cautionPeople.map(({ name }) => ({ name, cautions: held.get(name) }))

    expect(found).toEqual(cautionPeople.map(({ name, cautions: byHand }) => ({ name, cautions: byHand })))
  })

  it("are each held by somebody and each missing in somebody", () => {
    for (const id of cautionIds) {
      expect(cautionPeople.some((person) => person.cautions.includes(id))).toBe(true)
      expect(cautionPeople.some((person) => !person.cautions.includes(id))).toBe(true)
    }
  })

  it.each(cautionPeople.filter((person) => person.cautions.length > 0))(
    "stand on the screen of: $name",
    async ({ name, cautions: byHand }) => {
      const shown = await engine.ask(patientCautions, {
        public_id: `public ${name}`,
        as_of: today,
        home_window_days: 30,
      })

      const ids: readonly string[] = cautionIds
      expect(shown.map((caution) => caution.caution).filter((id) => ids.includes(id))).toEqual(byHand)
    },
  )
})

describe("what the screen says with a caution", () => {
  async function shown(name: string, caution: string) {
    const rows = await engine.ask(patientCautions, {
      public_id: `public ${name}`,
      as_of: today,
      home_window_days: 30,
    })
    return rows.find((row) => row.caution === caution)
  }

  it("is the creatinine before and after, with both rows", async () => {
    expect(await shown("creatinine 131 of 100", "creatinine-rise-after-start")).toMatchObject({
      word: "131 umol/L, from 100 umol/L",
      day: "2026-09-20",
      sources: ["labs:1:201", "labs:1:200"],
    })
  })

  it("is the drug that stopped and the day", async () => {
    expect(await shown("clonidine stopped", "stopped-without-taper")).toMatchObject({
      word: "clonidine 0.1 mg",
      day: "2026-10-20",
    })
  })

  it("is the interfering drug", async () => {
    expect(await shown("ibuprofen above target", "interfering-drug")).toMatchObject({
      word: "ibuprofen 400 mg",
      sources: ["medications:1:210"],
    })
  })

  it("is the record that speaks against the drug", async () => {
    const inPregnancy = await shown("ramipril in pregnancy", "ras-blocker-in-pregnancy-or-angioedema")
    const afterAngioedema = await shown("losartan after angioedema", "ras-blocker-in-pregnancy-or-angioedema")

    expect(inPregnancy?.sources).toContain("problems:1:220")
    expect(afterAngioedema?.sources).toContain("allergies:1:221")
  })
})

describe("potassium in the diet", () => {
  it("is flagged only where a serum potassium of the last 90 days is above 5.5", async () => {
    const rows = await engine.ask(
      {
        sql: `select p.patient_id as name from patient_month as p
          where p.as_of = cast($as_of as date) and p.has_potassium_diet_flag order by p.patient_id`,
        Row: z.object({ name: z.string() }),
      },
      { as_of: today },
    )

    expect(rows.map((row) => row.name)).toEqual([
      "potassium 5.6 of 89 days ago",
      "potassium 5.6 on aliskiren",
      "potassium 5.6 on finerenone",
      "potassium 5.6 on ramipril",
      "potassium 5.6 on spironolactone",
      "potassium above 5.5 on ramipril",
    ])
  })
})
