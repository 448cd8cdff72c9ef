import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { outreachList } from "../../../lib/outreach/outreach-list"
import { reasons } from "../../../lib/outreach/reasons"
import { reasonIds } from "../../../lib/domain/reason-ids"
import { outreachPeople } from "../../fixtures/outreach-people"
import { joined, today } from "../../fixtures/outreach-person"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(
    {
      ...joined(outreachPeople.map((person) => person.facts)),
      patient_records_raw: outreachPeople.map(({ name }) => raw.person(name)),
    },
    { today },
  )
})

afterAll(() => engine.close())

describe("the reasons to contact", () => {
  it("hold for the people they were put for by hand, and for nobody else", async () => {
    const rows = await engine.ask(outreachList, { as_of: today, today })
    const held = (name: string) => rows.filter((row) => row.patient_id === name).map((row) => row.reason)

    const found = outreachPeople.map(({ name }) => ({ name, reasons: held(name) }))

    expect(found).toEqual(outreachPeople.map(({ name, reasons: byHand }) => ({ name, reasons: byHand })))
  })

  it("are urgent by themselves, and not for standing beside one that is", async () => {
    const rows = await engine.ask(outreachList, { as_of: today, today })
    const urgent = ["pressure-very-high", "potassium-very-high", "drug-stopped-abruptly"]

    expect(rows.filter((row) => row.is_urgent !== urgent.includes(row.reason))).toEqual([])
    expect(rows.some((row) => row.tier === "urgent" && !row.is_urgent)).toBe(true)
  })

  it("are each held by somebody and each missing in somebody", () => {
    expect(new Set(outreachPeople.map(({ name }) => name)).size).toBe(outreachPeople.length)
    expect(new Set(outreachPeople.flatMap((person) => person.reasons))).toEqual(new Set(reasonIds))
  })

  it("are as many as are declared, each with its words, what ends it and its source", () => {
    expect(reasons.map((reason) => reason.id)).toEqual([...reasonIds])
    for (const reason of reasons) {
      expect(reason.source.length).toBeGreaterThan(20)
      expect(reason.endsWith.length).toBeGreaterThan(5)
      expect(reason.patientWords).not.toMatch(/\d|potassium|protein|kidney disease|dialysis/i)
    }
  })
})
