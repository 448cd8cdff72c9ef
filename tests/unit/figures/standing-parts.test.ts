import { expect, test } from "vitest"
import { standingParts } from "../../../lib/figures/standing-parts"
import { measures } from "../../../lib/measures/index"
import { figureOf } from "../../fixtures/month-figures"

// That every rate tells who met it, who did not and who was not measured: common practice, no source.

type Counts = Parameters<typeof figureOf>[1]["now"]

const told = (id: string, now: Counts) =>
  standingParts(figureOf(id, { then: now, now })).map(({ words, number }) => `${number} ${words}`)

test("who met it, who did not and who was not measured are told, also of nobody", () => {
  expect(told("bp-at-target", { met: 4, notMet: 3, unknown: 2, exception: 1 })).toEqual([
    "4 at target",
    "3 above target",
    "2 not measured",
    "1 documented reason",
  ])
  expect(told("bp-at-target", { met: 0, notMet: 7 })).toEqual([
    "0 at target",
    "7 above target",
    "0 not measured",
  ])
})

test("a measure that leaves nobody unmeasured tells of two", () => {
  expect(told("pressure-measured", { met: 6, notMet: 1 })).toEqual(["6 measured", "1 not measured"])
})

test.each(measures.map(({ id }) => id))("the parts of %s hold everybody whom it asks", (id) => {
  const parts = standingParts(
    figureOf(id, { then: { met: 1, notMet: 1 }, now: { met: 11, notMet: 5, unknown: 7, exception: 3 } }),
  )

  expect(parts.reduce((sum, { number }) => sum + number, 0)).toBe(26)
})

test("a measure that asks nobody has no parts", () => {
  expect(told("bp-at-target", { met: 0, notMet: 0 })).toEqual([])
})
