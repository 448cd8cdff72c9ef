import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { keptClasses } from "../../../lib/questions/kept-classes"
import { startingCounts } from "../../../lib/questions/starting-and-stopping-counts"
import { startingFindings, startingGroups } from "../../../lib/questions/starting-and-stopping-groups"
import { startingPeople } from "../../../lib/questions/starting-and-stopping-people"
import { stoppedClasses, type StoppedClass } from "../../../lib/questions/stopped-classes"
import { startingFacts, startingPeopleByHand, today } from "../../fixtures/starting-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(startingFacts, { today })
})

afterAll(() => engine.close())

const day = { as_of: today }
const all = { limit: 1000, offset: 0 }
const nameOf = (publicId: string) => publicId.replace("public ", "")

async function listed(group: string | null, detail: string | null = null, page = all) {
  const rows = await engine.ask(startingPeople, { ...day, group_id: group, detail, ...page })
  return rows.map((row) => nameOf(row.public_id))
}

describe("the lists of starting and stopping", () => {
  it.each(startingGroups.map(({ id }, place) => [id, place] as const))(
    "hold %s as by hand, nobody left out or added",
    async (id, place) => {
      const byHand = startingPeopleByHand.filter(({ groups }) => groups.includes(id)).map(({ name }) => name)

      const [counts] = await engine.ask(startingCounts, day)

      expect((await listed(id)).toSorted()).toEqual(byHand.toSorted())
      expect(counts?.groups[place]).toBe(byHand.length)
    },
  )

  it.each(startingFindings.map(({ id, group }, place) => [group, id, place] as const))(
    "count in %s with %s as many as they narrow to",
    async (group, id, place) => {
      const [counts] = await engine.ask(startingCounts, day)
      const narrowed = await listed(group, id)

      const rows = await engine.ask(startingPeople, { ...day, group_id: group, detail: null, ...all })

      expect(counts?.found[place]).toBe(narrowed.length)
      expect(rows.filter((row) => row.holds[place]).map((row) => nameOf(row.public_id))).toEqual(narrowed)
    },
  )

  it.each([
    ["above-target", "severe", ["office 182/79"]],
    ["lifestyle-first", "no-such-finding", []],
    ["low", "falls", ["low and fell"]],
    ["low", "kept", ["low in fibrillation", "low in heart failure", "low with albuminuria"]],
    ["low", "rebound", ["low in heart failure"]],
    ["stopped", "abrupt", ["beta blocker at once"]],
    ["stopped", "ran-out", ["ran out"]],
    ["stopped", "no-such-finding", []],
  ])("narrow %s to %s", async (group, detail, names) => {
    expect((await listed(group, detail)).toSorted()).toEqual(names)
  })

  it("stand severe first, then the furthest above the target of where it was taken", async () => {
    // 150 is 20 above 130; the others with a systolic of 130 or a diastolic at its limit are 0 above.
    expect((await listed("above-target")).slice(0, 2)).toEqual(["office 182/79", "above as needed only"])
  })

  it("stand falls first, then the lowest systolic", async () => {
    expect(await listed("low")).toEqual([
      ...[
        "low and fell",
        "low and fell long ago",
        "low in heart failure",
        "low in fibrillation",
        "low with albuminuria",
        "low 109",
      ],
    ])
  })

  it("stand the abrupt stop first, then those not measured since, the longest ago first", async () => {
    expect((await listed("stopped")).slice(0, 3)).toEqual([
      "beta blocker at once",
      "ran out",
      "read on the day",
    ])
  })

  it("come in pages that join to the whole", async () => {
    const pages = [
      await listed("stopped", null, { limit: 4, offset: 0 }),
      await listed("stopped", null, { limit: 1000, offset: 4 }),
    ]

    expect(pages.flat()).toEqual(await listed("stopped"))
  })

  it("hold whoever is between 120/80 and a target of 140/90 by either number", async () => {
    const settings = { "bp.systolicTarget": 140, "bp.diastolicTarget": 90 }
    const other = await openEngine(startingFacts, { today, settings })
    const rows = await other.ask(startingPeople, {
      ...day,
      group_id: "lifestyle-first",
      detail: null,
      ...all,
    })
    other.close()
    const names = rows.map((row) => nameOf(row.public_id))

    expect(names).toEqual(expect.arrayContaining(["office 119/80", "office 130/79", "24-hour 114/75"]))
    expect(names).not.toContain("office 119/79")
  })
})

const Standing = z.object({ public_id: z.string(), standing: z.string() })

async function standings(measure: "followed_after_stopping" | "abrupt_stop"): Promise<Map<string, string>> {
  const rows = await engine.ask(
    {
      sql: `select p.public_id, s.${measure} as standing
        from patient_standings as s join people as p on p.patient_id = s.patient_id
        where s.as_of = cast($as_of as date)`,
      Row: Standing,
    },
    day,
  )
  return new Map(rows.map((row) => [row.public_id, row.standing]))
}

async function stopsOf(...names: string[]): Promise<StoppedClass[]> {
  return engine.ask(stoppedClasses, { ...day, listed_ids: names.map((name) => `public ${name}`).join(",") })
}

function daysUntilRead(stop: StoppedClass): number | null {
  if (stop.measured_on === null) return null
  return (Date.parse(stop.measured_on) - Date.parse(stop.stopped_on)) / 86_400_000
}

describe("what was stopped", () => {
  it("agrees with the measure of followed stops, person by person", async () => {
    const stops = await stopsOf(...startingPeopleByHand.map(({ name }) => name))

    for (const [person, standing] of await standings("followed_after_stopping")) {
      const own = stops.filter((stop) => stop.public_id === person && stop.days_ago >= 30)
      const isFollowed = own.every((stop) => (daysUntilRead(stop) ?? 31) <= 30)
      if (standing === "met" || standing === "not met")
        expect([nameOf(person), own.length > 0, isFollowed]).toEqual([
          nameOf(person),
          true,
          standing === "met",
        ])
      if (standing === "outside") expect([nameOf(person), own.length]).toEqual([nameOf(person), 0])
    }
  })

  it("agrees with the measure of abrupt stops, person by person", async () => {
    const stops = await stopsOf(...startingPeopleByHand.map(({ name }) => name))
    const found = [...(await standings("abrupt_stop"))].filter(([, standing]) => standing === "met")
    const byRows = stops.filter(
      (stop) =>
        ["beta_blocker", "central_agonist"].includes(stop.class) &&
        !stop.is_tapered &&
        stop.days_ago < 60 &&
        stop.days_ago >= 14 &&
        (daysUntilRead(stop) ?? 15) > 14,
    )

    expect(found.map(([person]) => person)).toEqual(byRows.map((stop) => stop.public_id))
    expect(found.length).toBe(1)
  })

  it.each([
    ["stopped 119 days ago", { days_ago: 119, measured_on: "2026-08-03", measured_systolic: 124 }],
    ["read on the day", { stopped_on: "2026-09-10", measured_on: null, measured_source: null }],
    ["never read", { drug: "amlodipine", dose: 10, is_run_out: false, measured_on: null }],
    // 60 days from 1 June and the 30 days of grace: the last day is 30 August.
    ["ran out", { is_run_out: true, stopped_on: "2026-08-31" }],
    ["beta blocker at once", { class: "beta_blocker", is_tapered: false }],
    ["beta blocker in steps", { is_tapered: true, measured_on: "2026-10-11" }],
    ["lowered 31 days before", { is_tapered: false }],
    ["lowered 30 days before", { is_tapered: true }],
  ])("of %s is told with what came of it", async (name, told) => {
    expect(await stopsOf(name)).toEqual([expect.objectContaining(told)])
  })

  it("is told of each stop of a class, the latest first", async () => {
    expect((await stopsOf("stopped twice")).map((stop) => [stop.stopped_on, stop.measured_on])).toEqual([
      ["2026-10-10", null],
      ["2026-08-01", "2026-08-20"],
    ])
  })

  it("is nothing of whom nobody asked", async () => {
    expect(await stopsOf()).toEqual([])
  })
})

it("tells the classes that have a reason beside the pressure, and no other", async () => {
  const people = ["low in heart failure", "low in fibrillation", "low with albuminuria", "low 109"].map(
    (name) => `public ${name}`,
  )
  const rows = await engine.ask(keptClasses, { ...day, listed_ids: people.join(",") })

  expect(rows.map((row) => [nameOf(row.public_id), row.class, row.reason])).toEqual([
    ["low in fibrillation", "calcium_channel_blocker", "atrial_fibrillation"],
    ["low in heart failure", "beta_blocker", "heart_failure"],
    ["low with albuminuria", "ras_blocker", "albuminuria"],
  ])
})
