import { describe, expect, it } from "vitest"
import { reasonIds, type ReasonId } from "../../../lib/domain/reason-ids"
import type { Settings } from "../../../lib/domain/settings"
import { outreachList, type OutreachRow } from "../../../lib/outreach/outreach-list"
import { reasons } from "../../../lib/outreach/reasons"
import { outreachPeople } from "../../fixtures/outreach-people"
import { joined, today } from "../../fixtures/outreach-person"
import { openEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const facts = {
  ...joined(outreachPeople.map((person) => person.facts)),
  patient_records_raw: outreachPeople.map(({ name }) => raw.person(name)),
}

async function listWith(settings: Partial<Settings>): Promise<OutreachRow[]> {
  const engine = await openEngine(facts, { today, settings })
  return engine.ask(outreachList, { as_of: today, today }).finally(() => engine.close())
}

const pairsOf = (rows: readonly OutreachRow[]) => rows.map((row) => `${row.patient_id}: ${row.reason}`).sort()

describe("the reasons as the clinic set them", () => {
  it("are left out where switched off, and only those", async () => {
    const all = await listWith({})
    const some = await listWith({ "outreach.reasonsOff": "above-target lost-to-follow-up" })
    const off = (row: OutreachRow) => row.reason === "above-target" || row.reason === "lost-to-follow-up"

    expect(all.filter(off).length).toBeGreaterThan(1)
    expect(pairsOf(some)).toEqual(pairsOf(all.filter((row) => !off(row))))
  })

  it("that are urgent hold whatever is on record", async () => {
    const all = await listWith({})
    const none = await listWith({ "outreach.reasonsOff": reasonIds.join(" ") })

    expect(none.length).toBeGreaterThan(2)
    expect(pairsOf(none)).toEqual(pairsOf(all.filter((row) => row.is_urgent)))
  })

  it("stand in the clinic's order, which comes after the tier and before the risk cell", async () => {
    const turned: ReasonId[] = [...reasonIds].reverse()
    const rows = await listWith({ "outreach.reasonOrder": turned.join(" ") })
    const tierOf = (row: OutreachRow) => reasons.find((one) => one.id === row.reason)?.tier
    const names = [...new Set(rows.map((row) => row.patient_id))]
    const people = names.map((name) => rows.filter((row) => row.patient_id === name))
    const firstOf = (own: readonly OutreachRow[]) =>
      Math.min(...own.filter((row) => tierOf(row) === row.tier).map((row) => turned.indexOf(row.reason)))

    const several = people.filter((own) => own.length > 1)
    expect(several.length).toBeGreaterThan(0)
    for (const own of several)
      for (const tier of new Set(own.map(tierOf))) {
        const places = own.filter((row) => tierOf(row) === tier).map((row) => turned.indexOf(row.reason))
        expect(places).toEqual([...places].sort((one, other) => one - other))
      }
    for (const [place, own] of people.entries()) {
      const [above, below] = [people[place - 1], own[0]]
      if (above === undefined || above[0]?.tier !== below?.tier) continue
      expect(firstOf(above)).toBeLessThanOrEqual(firstOf(own))
      expect(below?.below_by === "order of reasons").toBe(firstOf(above) < firstOf(own))
    }
    expect(rows.some((row) => row.below_by === "order of reasons")).toBe(true)
  })

  it("look as far ahead, and at visits as near, as the clinic set", async () => {
    const ahead = (rows: readonly OutreachRow[]) => rows.filter((row) => row.falls_out_on !== null).length
    const soon = (rows: readonly OutreachRow[]) => rows.filter((row) => row.is_booked_soon).length
    const near = await listWith({ "outreach.aheadDays": 7, "outreach.bookedDays": 1 })
    const far = await listWith({ "outreach.aheadDays": 180, "outreach.bookedDays": 60 })

    expect(ahead(far)).toBeGreaterThan(ahead(near))
    expect(soon(far)).toBeGreaterThanOrEqual(soon(near))
  })
})
