import fc from "fast-check"
import { expect, test } from "vitest"
import { factKinds } from "../../lib/domain/fact-kinds"
import { dayOf, textOf } from "../../seed/calendar"
import { periodOf } from "../../seed/clinic"
import { tellLife } from "../../seed/tell-life"
import { tellClinic } from "../../seed/write-demo-clinic"
import { filesFromTexts } from "../reference/csv"
import { day } from "../reference/day"
import { readExtract } from "../reference/read-extract"
import { openMemoryExtract } from "../unit/seed/memory-extract"

const slow = { timeout: 120_000 }
const seeds = fc.integer({ min: 0, max: 1_000_000 })
const lastDays = fc.integer({ min: dayOf("2019-01-01"), max: dayOf("2026-11-24") }).map(textOf)

function told(options: { seed: number; through: string; patients: number; months: number }) {
  const extract = openMemoryExtract()
  tellClinic(options, extract)
  return extract.texts()
}

test("the same seed and last day give the same bytes, another seed another clinic", slow, () => {
  fc.assert(
    fc.property(seeds, lastDays, (seed, through) => {
      const options = { seed, through, patients: 8, months: 12 }

      expect(told(options)).toEqual(told(options))
      expect(told({ ...options, seed: seed + 1 })).not.toEqual(told(options))
    }),
    { numRuns: 8 },
  )
})

test("no row of any clinic breaks the contract but the ones wrong on purpose", slow, () => {
  fc.assert(
    fc.property(seeds, lastDays, fc.integer({ min: 1, max: 48 }), (seed, through, months) => {
      const texts = told({ seed, through, patients: 9, months })
      const { rejected } = readExtract({
        open: filesFromTexts(texts),
        timeZone: "UTC",
        importDay: day(through) + 1,
      })

      // Nine people are too few for a line that is wrong on purpose.
      expect(new Set(Object.values(rejected))).toEqual(new Set([0]))
    }),
    { numRuns: 25 },
  )
})

test("a person's life does not depend on how many others there are", slow, () => {
  fc.assert(
    fc.property(seeds, lastDays, fc.integer({ min: 1, max: 500 }), (seed, through, number) => {
      const period = periodOf({ through: dayOf(through), months: 24 })
      const few = told({ seed, through, patients: 3, months: 24 })
      const more = told({ seed, through, patients: 5, months: 24 })

      expect(tellLife({ seed, number, period }).life.rows).toEqual(
        tellLife({ seed, number, period }).life.rows,
      )
      for (const kind of factKinds) {
        const linesOf = (texts: Record<string, string>) =>
          (texts[`${kind}.csv`] ?? "").split("\n").filter(Boolean)
        expect(linesOf(more)).toEqual(expect.arrayContaining(linesOf(few)))
      }
    }),
    { numRuns: 6 },
  )
})
