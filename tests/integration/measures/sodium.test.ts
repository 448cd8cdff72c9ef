import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { dietMonths } from "../../../lib/questions/diet-months"
import { sodiumBars } from "../../../lib/questions/sodium-bars"
import { sodiumCounts } from "../../../lib/questions/sodium-counts"
import { sodiumGroups } from "../../../lib/questions/sodium-groups"
import { sodiumLimits } from "../../../lib/questions/sodium-limits"
import { sodiumAbove, sodiumChanged, sodiumNotAssessed } from "../../../lib/questions/sodium-people"
import { sodiumRatios } from "../../../lib/questions/sodium-ratios"
import { sodiumFacts, today } from "../../fixtures/sodium-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

// Everything beside the published numbers is worked out by hand from the records of the fixture.
let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(sodiumFacts, { today })
})

afterAll(() => engine.close())

const day = { as_of: today }
const all = { limit: 1000, offset: 0 }

type List = typeof sodiumAbove | typeof sodiumNotAssessed | typeof sodiumChanged

async function namesOf(list: List, detail: string | null = null, page = all): Promise<string[]> {
  const rows = await engine.ask(list, { ...day, detail, ...page })
  return rows.map((row) => row.public_id.replace("public ", ""))
}

describe("sodium against the limits", () => {
  it("is counted in each series apart, a value at a limit within it", async () => {
    const rows = await engine.ask(sodiumLimits, day)

    expect(rows.map((row) => [row.series, row.n, row.within_1500, row.within_2000, row.within_2300])).toEqual(
      [
        ["counted days", 9, 1, 4, 5],
        ["food frequency", 1, 0, 0, 0],
        // 100 mmol in 24 hours are 2,299 mg and 150 mmol 3,448 (published atomic weight, 22.99)
        ["24-hour urine", 2, 0, 0, 1],
      ],
    )
    expect(rows.map((row) => row.mean_mg)).toEqual([2200.111111, 2600, 2873.75])
  })

  it("tells how many values rest on a number with a comparator", async () => {
    const rows = await engine.ask(sodiumLimits, day)

    expect(rows.map((row) => row.comparators)).toEqual([0, 0, 1])
  })

  it("stands in bars whose upper end belongs to them", async () => {
    const rows = await engine.ask(sodiumBars, day)
    const counted = rows.filter((row) => row.series === "counted days")

    expect(counted.map((row) => [row.above_mg, row.n])).toEqual([
      [1250, 1], // 1,500
      [1750, 3], // 1,800, 2,000 and 2,000
      [2250, 4], // 2,300, 2,301, 2,400 and 2,500
      [2750, 1], // 3,000
    ])
  })

  it("agrees with the measure of the limit", async () => {
    const Standing = z.object({ standing: z.string(), n: z.number().int() })
    const standings = await engine.ask(
      {
        sql: `select diet_sodium_within_limit as standing, cast(count(*) as integer) as n
        from patient_standings where as_of = cast($as_of as date) group by standing`,
        Row: Standing,
      },
      day,
    )
    const of = (name: string) => standings.find((row) => row.standing === name)?.n ?? 0
    const limits = await engine.ask(sodiumLimits, day)
    const [counts] = await engine.ask(sodiumCounts, day)

    expect(limits.reduce((sum, row) => sum + row.within_2000, 0)).toBe(of("met"))
    expect(limits.reduce((sum, row) => sum + row.n, 0)).toBe(of("met") + of("not met"))
    expect(counts).toMatchObject({ not_assessed: of("unknown"), assessed: of("met") + of("not met") })
  })
})

describe("the molar sodium:potassium ratio", () => {
  it("is that of the records that have both, as published conversions give it", async () => {
    const rows = await engine.ask(sodiumRatios, day)
    // By weight times 1.70 is molar (39.10 / 22.99); WHO's limits of 2,000 mg and 3,510 mg lie just below 1.
    const byHand = [(2000 / 3510) * 1.7, (2300 / 2600) * 1.7]

    expect(rows).toHaveLength(1)
    expect(rows[0]).toMatchObject({ series: "counted days", n: 2, below_1: 1 })
    expect(rows[0]?.mean_ratio).toBeCloseTo(byHand.reduce((sum, one) => sum + one) / byHand.length, 2)
  })
})

describe("the change in the same people", () => {
  it("is -600, -100 and +400 mg, on average -100 with a spread of 500", async () => {
    const row = (await engine.ask(dietMonths)).find(
      (one) => one.as_of === today && one.series === "counted days",
    )

    expect(row).toMatchObject({ paired_n: 3, paired_change_mg: -100, paired_sd_mg: 500 })
  })

  it("lists for whom it fell and for whom it rose", async () => {
    const [counts] = await engine.ask(sodiumCounts, day)

    expect(await namesOf(sodiumChanged)).toEqual(["fell much", "fell little", "rose"])
    expect(await namesOf(sodiumChanged, "fell")).toEqual(["fell much", "fell little"])
    expect(await namesOf(sodiumChanged, "rose")).toEqual(["rose"])
    expect(counts).toMatchObject({ fell: 2, rose: 1 })
  })
})

describe("sodium by group", () => {
  const groupsOf = async (kind: string) =>
    (await engine.ask(sodiumGroups, { ...day, sodium_limit_mg: 2000 }))
      .filter((row) => row.kind === kind && row.series === "counted days")
      .map((row) => [row.name, row.n, row.within, row.paired_n, row.paired_change_mg])

  it("is that of a site, with the change of its people", async () => {
    expect(await groupsOf("site")).toEqual([
      ["North", 5, 3, 2, -350],
      ["South", 4, 1, 1, 400],
    ])
  })

  it("is that of the dietitian seen last within 12 months, and of those who saw none", async () => {
    expect(await groupsOf("dietitian")).toEqual([
      ["Dietitian One", 3, 3, 1, -600],
      [null, 6, 1, 2, 150],
    ])
  })

  it("keeps apart who was asked in two ways", async () => {
    expect(await groupsOf("method")).toEqual([
      ["food_record", 1, 0, 0, null],
      ["recall_24h", 7, 4, 0, null],
      ["recall_24h and food_record", 1, 0, 0, null],
    ])
  })
})

describe("the lists", () => {
  it("have who is above 2,300 mg, pressure above target first, then by sodium", async () => {
    const uncontrolled = ["too early for a pair", "at 2301"]
    const [counts] = await engine.ask(sodiumCounts, day)

    expect(await namesOf(sodiumAbove)).toEqual([
      ...uncontrolled,
      ...["urine above 150 mmol", "rose", "food frequency", "fell little"],
    ])
    expect(await namesOf(sodiumAbove, "uncontrolled")).toEqual(uncontrolled)
    expect(counts).toMatchObject({ above: 6, above_uncontrolled: 2 })
  })

  it("have who was last assessed twelve months ago to the day, by next visit, then risk", async () => {
    expect(await namesOf(sodiumNotAssessed)).toEqual([
      ...["visit in November", "visit in December", "protein in the urine"],
      ...["no risk known", "twelve months ago"],
    ])
  })

  it("come in pages that join to the whole", async () => {
    const pages = [
      await namesOf(sodiumAbove, null, { limit: 2, offset: 0 }),
      await namesOf(sodiumAbove, null, { limit: 1000, offset: 2 }),
    ]

    expect(pages.flat()).toEqual(await namesOf(sodiumAbove))
  })
})

it("finds nobody and nothing in a clinic without people", async () => {
  const empty = await openEngine({}, { today })

  try {
    expect(await empty.ask(sodiumLimits, day)).toEqual([])
    expect(await empty.ask(sodiumRatios, day)).toEqual([])
    expect(await empty.ask(sodiumBars, day)).toEqual([])
    expect(await empty.ask(sodiumCounts, day)).toEqual([
      {
        counted: 0,
        assessed: 0,
        not_assessed: 0,
        above: 0,
        above_uncontrolled: 0,
        fell: 0,
        rose: 0,
        doubtful_urine: 0,
      },
    ])
  } finally {
    empty.close()
  }
})
