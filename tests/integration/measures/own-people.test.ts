import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { clinicianPanels } from "../../../lib/questions/clinician-panels"
import { ownChangeCounts } from "../../../lib/questions/own-change-counts"
import { ownChangeGroups, ownChanges, type OwnChange } from "../../../lib/questions/own-changes"
import { ownCounts } from "../../../lib/questions/own-counts"
import { ownUrgent } from "../../../lib/questions/own-urgent"
import { ownVisits } from "../../../lib/questions/own-visits"
import { earlier, ownPanelFacts, ownPanelPeople, stranger, today } from "../../fixtures/own-panel-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

const days = { as_of: today, earlier_as_of: earlier }
const all = { limit: 1000, offset: 0 }

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(ownPanelFacts, { today })
})

afterAll(() => engine.close())

function said(change: OwnChange): string {
  const between =
    change.later === null ? null : `${change.earlier === null ? "" : `${change.earlier} `}> ${change.later}`
  const words = [change.kind, change.word, between].filter((word) => word !== null).join(" ")
  if (change.cause !== null) return `${words}, ${change.cause}`
  return change.on_day === null ? words : `${words} on ${change.on_day}`
}

async function changesOf(clinician: string, detail: string | null = null) {
  const rows = await engine.ask(ownChanges, { ...days, ...all, clinician, detail })
  const people = [...new Set(rows.map((row) => row.public_id.replace("public ", "")))]
  return people.map((name) => ({
    name,
    changes: rows.filter((row) => row.public_id === `public ${name}`).map(said),
  }))
}

describe("what changed for a clinician's people", () => {
  it.each(ownPanelPeople)("is told of who is $name as by hand", async ({ name, changes }) => {
    const found = (await changesOf("S-1")).find((one) => one.name === name)

    expect(found?.changes.toSorted() ?? []).toEqual(changes.toSorted())
  })

  it("is told of nobody else's people, and under the record that was kept", async () => {
    const names = (await changesOf("S-1")).map(({ name }) => name)
    const others = await changesOf("S-2")

    expect(names).not.toContain("of another clinician")
    expect(names).toContain("merged into")
    expect(names).not.toContain("old record")
    expect(names).not.toContain(stranger.name)
    expect(others.map(({ name }) => name)).toEqual(["of another clinician"])
  })

  it("begins with what is urgent, then who is newly not met on more", async () => {
    const names = (await changesOf("S-1")).map(({ name }) => name)

    expect(names.slice(0, 4)).toEqual(["185 this week", "of another site", "reading too old", "rises"])
  })

  it("comes in pages of people that join to the whole", async () => {
    const whole = await engine.ask(ownChanges, { ...days, ...all, clinician: "S-1", detail: null })
    const pages = [
      await engine.ask(ownChanges, { ...days, clinician: "S-1", detail: null, limit: 3, offset: 0 }),
      await engine.ask(ownChanges, { ...days, clinician: "S-1", detail: null, limit: 1000, offset: 3 }),
    ]

    expect(pages.flat()).toEqual(whole)
    expect(whole[0]?.total).toBe(new Set(whole.map((row) => row.public_id)).size)
  })

  it.each(ownChangeGroups.map((group, place) => [group, place] as const))(
    "is counted and listed by the group %s alike",
    async (group, place) => {
      const [counts] = await engine.ask(ownChangeCounts, { ...days, clinician: "S-1" })

      expect(counts?.by_group[place]).toBe((await changesOf("S-1", group)).length)
      expect(counts?.by_group[place]).toBeGreaterThan(0)
      expect(counts?.people).toBe((await changesOf("S-1")).length)
    },
  )
})

describe("a clinician's people", () => {
  it("are those of the record, and of a dietitian those who come to them", async () => {
    const panels = await engine.ask(clinicianPanels, { as_of: today, clinician: null })
    const people = Object.fromEntries(panels.map((panel) => [panel.clinician_id, panel.people]))

    // Of S-1 everybody but who left, and the merged record's person; of D-1 a visit of the last 18 months and one that is booked.
    expect(people).toEqual({ "S-1": ownPanelPeople.length, "S-2": 1, "D-1": 2 })
  })

  it("are counted by how their pressure stands", async () => {
    const [counts] = await engine.ask(ownCounts, { as_of: today, clinician: "S-1" })
    const above = ["rises", "185 this week", "of another site"]

    expect(counts).toEqual({
      people: ownPanelPeople.length,
      at_target: ownPanelPeople.length - above.length - 1,
      above_target: above.length,
      not_measured: 1,
      without_ras_blocker: 0,
      urgent: 2,
    })
  })

  it("are listed with what is urgent, new or not, the latest fact first", async () => {
    const urgent = await engine.ask(ownUrgent, { as_of: today, clinician: "S-1" })

    expect(urgent.map(({ family_name: name, reason, value }) => [name, reason, value])).toEqual([
      ["185 this week", "pressure-very-high", 185],
      ["potassium high before", "potassium-very-high", 6.2],
    ])
    expect(await engine.ask(ownUrgent, { as_of: earlier, clinician: "S-1" })).toEqual([])
  })

  it("stand in the book of 14 days by the clock, whoever they are booked with", async () => {
    const visits = await engine.ask(ownVisits, { as_of: today, today, clinician: "S-1", limit: 100 })

    expect(
      visits.map((visit) => [visit.family_name, visit.on_day, visit.starts_at, visit.with_name]),
    ).toEqual([
      ["rises", "2026-10-22", "08:10", null],
      ["falls", "2026-10-22", "09:30", "Cleo Marr"],
      ["unchanged", "2026-11-03", "14:00", null],
    ])
  })
})
