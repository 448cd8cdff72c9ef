import { expect, it } from "vitest"
import { longestStretch } from "../../../lib/figures/stretch"
import { runSignal } from "../../../lib/statistics/run-signal"

it("is the longest one-sided stretch, over months without a value and on the centre", () => {
  expect(longestStretch([1, 3, null, 4, 2, 5, 1], 2)).toEqual({
    from: 1,
    through: 5,
    months: 3,
    side: "above",
  })
})

it("is the later of two as long", () => {
  expect(longestStretch([1, 1, 3, 3], 2)).toMatchObject({ from: 2, side: "above" })
})

it("is none when no value lies off the centre", () => {
  expect(longestStretch([2, null, 2], 2)).toBeNull()
})

it("is as long as the run that the rule counts", () => {
  const values = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, null, 3, 2, 3, 8]
  const runs = runSignal(values, 4)

  expect(runs).toMatchObject({ ok: true, longestRun: longestStretch(values, 4)?.months })
})
