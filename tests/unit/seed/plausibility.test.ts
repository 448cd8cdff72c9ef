import { describe, expect, it } from "vitest"
import { plausibilityText } from "../../../seed/plausibility"
import { plausibilityRows } from "../../../seed/plausibility-rows"
import { tellClinic } from "../../../seed/write-demo-clinic"
import { filesFromTexts } from "../../reference/csv"
import { openReference } from "../../reference/compute-reference"
import type { ExtractWriter } from "../../../seed/extract-writer"
import { openMemoryExtract } from "./memory-extract"

const through = "2026-11-24"
const slow = { timeout: 120_000 }

const discard: ExtractWriter = {
  write: () => undefined,
  writeLate: () => undefined,
  writeLine: () => undefined,
  close: () => ({
    staff: 0,
    patients: 0,
    visits: 0,
    appointments: 0,
    readings: 0,
    labs: 0,
    medications: 0,
    problems: 0,
    allergies: 0,
    diet: 0,
  }),
}

describe("the default clinic", () => {
  it("lies within the ranges judged plausible from published figures", slow, () => {
    const { tally } = tellClinic({ through }, discard)
    const rows = plausibilityRows(tally)

    expect(rows).toHaveLength(28)
    for (const row of rows) {
      const told = `${row.figure} (published: ${row.published}; ${row.source})`
      expect(row.value, told).toBeGreaterThanOrEqual(row.low)
      expect(row.value, told).toBeLessThanOrEqual(row.high)
    }
  })

  it("tells its story: control and protection rise, sodium falls at Riverside only", slow, () => {
    const { tally } = tellClinic({ patients: 4000, seed: 3, through }, discard)
    const [first, last] = [tally.days.at(0), tally.days.at(-1)]
    if (!first || !last) throw new Error("the story has no days")
    const rate = (share: { met: number; of: number }) => share.met / share.of
    const mean = (sum: { sum: number; n: number }) => sum.sum / sum.n

    expect(rate(last.atTarget) - rate(first.atTarget)).toBeGreaterThan(0.02)
    expect(rate(last.rasAmongConfirmed) - rate(first.rasAmongConfirmed)).toBeGreaterThan(0.02)
    expect(rate(last.homeInYear) - rate(first.homeInYear)).toBeGreaterThan(0.15)
    expect(mean(first.sodium.Riverside) - mean(last.sodium.Riverside)).toBeGreaterThan(350)
    expect(Math.abs(mean(first.sodium.Northgate) - mean(last.sodium.Northgate))).toBeLessThan(300)
  })

  it("prints every figure with its source and its counts", slow, () => {
    const { tally } = tellClinic({ patients: 30, through }, discard)
    const text = plausibilityText(tally)

    for (const row of plausibilityRows(tally)) {
      expect(text).toContain(row.source)
      expect(text).toContain(row.counts)
    }
  })
})

describe("the generator's own count", () => {
  it("comes close to an independent reading of the definitions", slow, () => {
    const extract = openMemoryExtract()
    const { tally } = tellClinic({ patients: 300, seed: 11, through }, extract)
    const ask = openReference({
      open: filesFromTexts(extract.texts()),
      timeZone: "America/Chicago",
      importDay: "2026-11-25",
    })
    const { measures, patients } = ask(through)
    const last = tally.days.at(-1)
    const measureOf = (id: string) => measures.find((measure) => measure.id === id)

    expect(last?.panel).toBeGreaterThan(150)
    expect(Math.abs((last?.panel ?? 0) - patients.length)).toBeLessThanOrEqual(6)
    const pairs = [
      { counted: last?.atTarget, measure: measureOf("bp-at-target") },
      { counted: last?.acrInYear, measure: measureOf("acr-tested") },
      { counted: last?.rasAmongConfirmed, measure: measureOf("ras-blocker-in-albuminuria") },
    ]
    for (const { counted, measure } of pairs) {
      if (!counted || !measure || !("met" in measure)) throw new Error("a measure is missing")
      // The generator knows no documented reasons: whoever has one is among its "not met".
      const share = measure.met / (measure.met + measure.notMet + measure.unknown + measure.exception)
      expect(Math.abs(counted.met / counted.of - share), measure.id).toBeLessThan(0.06)
    }
  })
})
