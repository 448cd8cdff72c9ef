import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { defaultSettings } from "../../../lib/domain/settings"
import { paramsOf } from "../../../lib/engine/compute"
import { measures } from "../../../lib/measures/index"
import { wordedMeasure } from "../../../lib/measures/worded-measures"
import { conditionsSql } from "../../../lib/measures/standing-sql"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine({}, { today: "2026-10-31" })
})

afterAll(() => engine.close())

describe("the registry of measures", () => {
  it("has one id and one column a measure", () => {
    expect(new Set(measures.map((one) => one.id)).size).toBe(measures.length)
    expect(measures.map((one) => one.column)).toEqual(measures.map((one) => one.id.replaceAll("-", "_")))
  })

  it.each(measures.map((one) => [one.id, one] as const))(
    "%s says its source and its words",
    (_id, measure) => {
      const conditions = [
        ...measure.population,
        ...measure.excluded,
        ...measure.unknown,
        measure.met,
        ...measure.exception,
      ]

      expect(measure.source).toMatch(/doi:10\.|CMS\d+|common practice, no source/)
      for (const condition of conditions) {
        expect(condition.words.length).toBeGreaterThan(3)
        expect(condition.sql).not.toContain("${")
      }
      if (measure.direction === "down") expect(measure.exception).toEqual([])
    },
  )

  it.each(measures.map((one) => [one.id, one] as const))(
    "%s binds, and uses every parameter it names",
    async (_id, measure) => {
      const params = paramsOf([measure], defaultSettings)
      const sql = conditionsSql(measure)

      await engine.connection.runAndReadAll(`explain ${sql}`, {
        public_id: "none",
        as_of: "2026-10-31",
        ...params,
      })

      for (const name of Object.keys(params)) expect(sql).toContain(`$${name}`)
      for (const value of Object.values(params)) expect(value).not.toBeNull()
    },
  )

  it.each(measures.map((one) => [one.id, one] as const))(
    "%s names in its words only settings that shape it, and says their values",
    (_id, measure) => {
      const raw = JSON.stringify(measure)
      const worded = JSON.stringify(wordedMeasure(measure, defaultSettings))

      const named = [...raw.matchAll(/\{([a-z]+\.[A-Za-z0-9]+)\}/g)].map((match) => match[1])
      expect(named.filter((key) => !measure.settings.some((one) => one === key))).toEqual([])
      expect(worded).not.toMatch(/\{[a-z]+\.[A-Za-z0-9]+\}/)
    },
  )

  it("dates a measure by a column the wide row has", async () => {
    const columns = await engine.ask({
      sql: "select column_name from (describe patient_month)",
      Row: z.object({ column_name: z.string() }),
    })

    for (const measure of measures)
      if (measure.fact !== null) expect(columns.map((one) => one.column_name)).toContain(measure.fact)
  })

  it("computes an empty clinic without a row", async () => {
    const rows = await engine.ask({
      sql: "select cast(count(*) as integer) as n from patient_standings",
      Row: z.object({ n: z.number() }),
    })

    expect(rows).toEqual([{ n: 0 }])
  })
})
