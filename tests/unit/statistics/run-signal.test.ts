import { expect, test } from "vitest"
import { median } from "../../../lib/statistics/median"
import { runSignal } from "../../../lib/statistics/run-signal"
import limits from "../../fixtures/statistics/run-limits.json"
import { stableSeries } from "../../fixtures/statistics/stable-series"

const alternating = (count: number) => Array.from({ length: count }, (_, place) => (place % 2 === 0 ? 1 : -1))

// R round(log2(n)) + 3 and qbinom(0.05, n - 1, 0.5), see the command in the file
test.each(limits.rows)("has the limits of $useful useful points", (row) => {
  expect(runSignal(alternating(row.useful), 0)).toMatchObject({ ok: true, ...row, isShifted: false })
})

// 14 useful points, 9 crossings, longest run 3: counted by hand, medians by R
test("finds nothing in a series that does not change", () => {
  const shares = stableSeries.map(({ met, total }) => met / total)

  expect(runSignal(shares, median(shares) ?? NaN)).toEqual({
    ok: true,
    useful: 14,
    longestRun: 3,
    longestAllowed: 7,
    crossings: 9,
    fewestCrossings: 4,
    isShifted: false,
  })
})

// limits for 12 points: a run of 7, 3 crossings
test("signals a run one longer than allowed, and not the longest allowed", () => {
  const run = (length: number) => [
    ...Array.from({ length }, () => 1),
    ...alternating(12 - length).map((side) => -side),
  ]

  expect(runSignal(run(7), 0)).toMatchObject({ longestRun: 7, isShifted: false })
  expect(runSignal(run(8), 0)).toMatchObject({ longestRun: 8, isShifted: true })
})

test("signals fewer crossings than chance gives, and not the fewest it gives", () => {
  const crossing = (times: number) =>
    Array.from({ length: 12 }, (_, place) => (Math.min(times, Math.floor(place / 3)) % 2 === 0 ? 1 : -1))

  expect(runSignal(crossing(3), 0)).toMatchObject({ crossings: 3, longestRun: 3, isShifted: false })
  expect(runSignal(crossing(2), 0)).toMatchObject({ crossings: 2, longestRun: 6, isShifted: true })
})

test("lets a run go on over points on the centre and over months without a value", () => {
  const values = [1, null, 1, 0, 1, 1, 1, 0, 1, 1, null, 1, -1, 1, -1]

  expect(runSignal(values, 0)).toMatchObject({ useful: 11, longestRun: 8, isShifted: true })
})

test("applies no rule to fewer than ten useful points", () => {
  const values = [1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 0, null]

  expect(runSignal(values, 0)).toEqual({ ok: false, reason: "too-few-points", useful: 9 })
})
