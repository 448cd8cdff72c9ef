import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { outreachList, type OutreachRow } from "../../../lib/outreach/outreach-list"
import { tiers } from "../../../lib/outreach/types"
import { outreachPeople } from "../../fixtures/outreach-people"
import { joined, today } from "../../fixtures/outreach-person"
import { openEngine, type RawFacts, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

// Everybody twice, the second time with a visit booked, so that every key has to decide somewhere.
const facts: RawFacts = {
  ...joined([...outreachPeople.map((person) => person.facts), ...outreachPeople.map(again)]),
  patient_records_raw: outreachPeople.flatMap(({ name }) => [
    raw.person(name),
    raw.person(`${name}, again`, { died_on: name === "140" ? "2026-10-31" : null }),
  ]),
}

function again(person: { name: string; facts: RawFacts }): RawFacts {
  const name = `${person.name}, again`
  const renamed = Object.entries(person.facts).map(([table, rows]) => [
    table,
    rows?.map((row) => ({
      ...row,
      patient_id: name,
      ...(row.order_key ? { order_key: `${name} ${row.order_key}` } : {}),
    })),
  ])
  const booked = {
    patient_id: name,
    appointment_id: name,
    starts_at: "2026-11-14 09:00:00",
    status: "booked",
  }
  return joined([Object.fromEntries(renamed), { appointments_raw: [booked] }])
}

let engine: TestEngine
let rows: OutreachRow[]

beforeAll(async () => {
  engine = await openEngine(facts, { today })
  rows = await engine.ask(outreachList, { as_of: today, today: "2026-11-01" })
})

afterAll(() => engine.close())

const cells = ["very high", "high", "moderately increased", "low"]

/** The keys of the order as numbers, the smaller first; worked out here without the engine. */
function keysOf(row: OutreachRow): [OutreachRow["below_by"], number][] {
  return [
    ["tier", tiers.indexOf(row.tier)],
    ["risk cell", row.risk_cell === null ? cells.length : cells.indexOf(row.risk_cell)],
    ["failure risk", row.failure_risk_2_years === null ? 1 : -row.failure_risk_2_years],
    ["reasons", -row.reasons],
    ["age of reasons", row.oldest_on === null ? 0 : Date.parse(row.oldest_on)],
    ["next visit", row.next_visit_on === null ? Infinity : Date.parse(row.next_visit_on)],
  ]
}

describe("the order of the people to contact", () => {
  it("is by tier, risk cell, failure risk, reasons, age and next visit, and says which decided", () => {
    const people = rows.filter((row, place) => rows[place - 1]?.patient_id !== row.patient_id)
    expect(people.length).toBeGreaterThan(50)
    expect(people.map((row) => row.place)).toEqual(people.map((_, place) => place + 1))

    for (const [place, below] of people.entries()) {
      const above = people[place - 1]
      if (above === undefined) {
        expect(below.below_by).toBeNull()
        continue
      }
      const decides = keysOf(below).find(([, key], at) => key !== keysOf(above)[at]?.[1])
      expect(below.below_by).toBe(decides?.[0] ?? "number")
      if (decides)
        expect(decides[1]).toBeGreaterThan(keysOf(above).find(([name]) => name === decides[0])?.[1] ?? NaN)
      else expect(below.public_id > above.public_id).toBe(true)
    }
    expect(new Set(people.map((row) => row.below_by))).toEqual(
      new Set([
        null,
        "tier",
        "risk cell",
        "failure risk",
        "reasons",
        "age of reasons",
        "next visit",
        "number",
      ]),
    )
  })

  it("is the same however the facts came in", async () => {
    const turned = Object.fromEntries(
      Object.entries(facts).map(([table, list]) => [table, list?.toReversed()]),
    )
    const other = await openEngine(turned, { today })
    const again = await other.ask(outreachList, { as_of: today, today: "2026-11-01" })
    other.close()

    expect(again).toEqual(rows)
  })

  it("has for each person the reasons in the order they are declared in", () => {
    const of = (name: string) => rows.filter((row) => row.patient_id === name).map((row) => row.reason)

    expect(of("protein")).toEqual(["protein-without-ras-blocker", "kidney-tests-due"])
  })

  it("knows whose visit is booked within 14 days of today", async () => {
    const soon = (list: OutreachRow[]) =>
      new Set(list.filter((row) => row.is_booked_soon).map((row) => row.patient_id))
    const asked = (day: string) => engine.ask(outreachList, { as_of: today, today: day })

    expect(soon(rows).has("160, again")).toBe(true)
    expect(soon(rows).has("160")).toBe(false)
    // From 31 October to 14 November it is 14 days, from the day before 15.
    expect(soon(await asked(today)).has("160, again")).toBe(true)
    expect(soon(await asked("2026-10-30")).size).toBe(0)
  })
})
