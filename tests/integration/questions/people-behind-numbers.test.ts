import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { measures } from "../../../lib/measures/index"
import type { Measure } from "../../../lib/measures/types"
import { anyone } from "../../../lib/questions/anyone"
import { dietMonths } from "../../../lib/questions/diet-months"
import { dietPeople } from "../../../lib/questions/diet-people"
import { detailCounts, details } from "../../../lib/questions/measure-details"
import { groupKinds, measureGroups } from "../../../lib/questions/measure-groups"
import { measureMonths } from "../../../lib/questions/measure-months"
import { measurePeople } from "../../../lib/questions/measure-people"
import { measureReasons } from "../../../lib/questions/measure-reasons"
import { changeCauses, changeKinds } from "../../../lib/domain/changes"
import { panelCounts } from "../../../lib/questions/panel-counts"
import { standingChanges } from "../../../lib/questions/standing-changes"
import { changeCounts } from "../../../lib/statistics/change-counts"
import { rateOf } from "../../../lib/statistics/rate"
import { variedClinic } from "../../fixtures/varied-clinic"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

const days = { as_of: "2026-10-31", earlier_as_of: "2026-09-30" }

const everyone = {
  ...days,
  standing: null,
  change: null,
  cause: null,
  detail: null,
  reason: null,
  clinician: null,
  site: null,
  sex: null,
  age: null,
  language: null,
  race: null,
  ethnicity: null,
  limit: 1000,
  offset: 0,
}

let engine: TestEngine
let empty: TestEngine

beforeAll(async () => {
  // a reading on the last day makes it the running month's day
  const clinic = variedClinic()
  engine = await openEngine(
    {
      ...clinic,
      readings_raw: [
        ...(clinic.readings_raw ?? []),
        {
          patient_id: "P-4",
          taken_at: "2026-10-31 09:00:00",
          is_date_only: false,
          systolic: 126,
          diastolic: 76,
          setting: "office",
        },
      ],
    },
    { today: "2026-10-31" },
  )
  empty = await openEngine({}, { today: "2026-10-31" })
})

afterAll(() => {
  engine.close()
  empty.close()
})

async function countsOf(measure: Measure) {
  const rows = await engine.ask(measureMonths)
  const row = rows.find((one) => one.measure_id === measure.id && one.as_of === days.as_of)
  if (!row) throw new Error(`no counts of ${measure.id}`)
  const { population, excluded, unknown, met, exception, not_met: notMet } = row
  return { population, excluded, unknown, met, exception, notMet }
}

async function listed(measure: Measure, narrowed: Partial<typeof everyone> | object) {
  const people = await engine.ask(measurePeople(measure), { ...everyone, ...narrowed })
  expect(people.every((one) => one.total === people.length)).toBe(true)
  return people.map((one) => one.public_id)
}

describe.each(measures.map((measure) => [measure.id, measure] as const))("%s", (_id, measure) => {
  test("lists as many people as each of its numbers says, each of them once", async () => {
    const counts = await countsOf(measure)
    const expected = {
      excluded: counts.excluded,
      unknown: counts.unknown,
      met: counts.met,
      exception: counts.exception,
      "not met": counts.notMet,
      counted: rateOf(counts, measure.direction).total,
    }

    for (const [standing, number] of Object.entries(expected)) {
      const people = await listed(measure, { standing })
      expect([standing, people.length, new Set(people).size]).toEqual([standing, number, number])
    }
    expect(counts.met + counts.notMet).toBeGreaterThan(3)
  })

  test("lists whoever gained, lost, joined and left, as many as the change counts", async () => {
    const moves = await engine.ask(standingChanges, days)
    const counts = changeCounts(
      moves.filter((move) => move.measure_id === measure.id),
      measure.direction,
    )

    const lists = await Promise.all(changeKinds.map((change) => listed(measure, { change })))

    expect(lists.map((people) => people.length)).toEqual(changeKinds.map((change) => counts[change]))
  })

  test("lists the people of every cause of a change, and they are all of that change", async () => {
    const moves = (await engine.ask(standingChanges, days)).filter((move) => move.measure_id === measure.id)
    for (const change of changeKinds) {
      const all = await listed(measure, { change })
      const byCause = []
      for (const cause of changeCauses) {
        const people = await listed(measure, { change, cause })
        const counted = moves.filter((move) => move.change === change && move.cause === cause)
        expect([cause, people.length]).toEqual([cause, counted.reduce((sum, move) => sum + move.people, 0)])
        byCause.push(...people)
      }
      expect(byCause.sort()).toEqual(all.sort())
    }
  })

  test("divides its people into groups without losing anyone", async () => {
    const counts = await countsOf(measure)
    const groups = await engine.ask(measureGroups(measure), days)

    for (const kind of groupKinds) {
      const own = groups.filter((group) => group.kind === kind)
      expect(own.reduce((sum, group) => sum + group.met, 0)).toBe(counts.met)
      for (const group of own) {
        const people = await listed(measure, { standing: "met", [kind]: group.key ?? "" })
        expect([kind, group.key, people.length]).toEqual([kind, group.key, group.met])
      }
    }
  })

  test("opens the people of each detail and each reason", async () => {
    const known = (await engine.ask(detailCounts, days)).filter((row) => row.measure_id === measure.id)
    expect(known.map((row) => row.detail).sort()).toEqual(
      details.flatMap((detail) => (detail.measureId === measure.id ? [detail.id] : [])).sort(),
    )
    for (const row of known) {
      const standing = details.find((one) => one.measureId === measure.id && one.id === row.detail)?.standing
      const people = await listed(measure, { standing, detail: row.detail })
      expect([row.detail, people.length]).toEqual([row.detail, row.people])
    }
    for (const { standing, reason, people } of await engine.ask(measureReasons(measure), days)) {
      expect([reason, (await listed(measure, { standing, reason })).length]).toEqual([reason, people])
    }
  })
})

test("the clinic has somebody in every change and detail, so that the lists above are no empty promise", async () => {
  const moves = await engine.ask(standingChanges, days)
  const counts = changeCounts(
    moves.filter((move) => move.measure_id === "bp-at-target"),
    "up",
  )

  expect(Math.min(counts.gained, counts.lost, counts.joined, counts.left)).toBeGreaterThan(0)
  expect((await engine.ask(detailCounts, days)).filter((row) => row.people > 0).length).toBeGreaterThan(4)
})

test("a page of a list holds its part and still knows the whole", async () => {
  const [measure] = measures
  if (!measure) throw new Error("no measure")
  const all = await listed(measure, { standing: "counted" })

  const page = await engine.ask(measurePeople(measure), {
    ...everyone,
    standing: "counted",
    limit: 5,
    offset: 5,
  })

  expect(page.map((one) => one.public_id)).toEqual(all.slice(5, 10))
  expect(page[0]?.total).toBe(all.length)
})

test("the records of a month are those of the people its mean counts", async () => {
  for (const month of (await engine.ask(dietMonths)).filter((row) => row.as_of === days.as_of)) {
    const records = await engine.ask(dietPeople, { ...days, series: month.series, limit: 1000, offset: 0 })

    expect([month.series, records[0]?.people]).toEqual([month.series, month.n])
    expect(records[0]?.total).toBe(records.length)
  }
})

test("a clinic without anyone answers every question", async () => {
  const [counts] = await empty.ask(panelCounts, days)

  expect(await empty.ask(anyone)).toEqual([{ is_anyone: false }])
  expect(await engine.ask(anyone)).toEqual([{ is_anyone: true }])
  expect(counts?.in_panel).toBe(0)
  expect(await empty.ask(measureMonths)).toEqual([])
  expect(await empty.ask(standingChanges, days)).toEqual([])
  expect((await empty.ask(detailCounts, days)).filter((row) => row.people !== 0)).toEqual([])
  for (const measure of measures) {
    expect(await empty.ask(measurePeople(measure), everyone)).toEqual([])
    expect(await empty.ask(measureGroups(measure), days)).toEqual([])
    expect(await empty.ask(measureReasons(measure), days)).toEqual([])
  }
})
