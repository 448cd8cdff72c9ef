import { expect, test } from "vitest"
import { newcombeDifference } from "../../../lib/statistics/newcombe-difference"

// Newcombe 1998, Stat Med 17:873-890, Table II, method 10, as quoted by several public test suites
const published = [
  { one: [56, 70], other: [48, 80], difference: 0.2, low: 0.0524, high: 0.3339 },
  { one: [9, 10], other: [3, 10], difference: 0.6, low: 0.1705, high: 0.809 },
  { one: [6, 7], other: [2, 7], difference: 0.5714, low: 0.0582, high: 0.8062 },
  { one: [5, 56], other: [0, 29], difference: 0.0893, low: -0.0381, high: 0.1926 },
  { one: [0, 10], other: [0, 20], difference: 0, low: -0.1611, high: 0.2775 },
  { one: [0, 10], other: [0, 10], difference: 0, low: -0.2775, high: 0.2775 },
  { one: [10, 10], other: [0, 20], difference: 1, low: 0.6791, high: 1 },
  { one: [10, 10], other: [0, 10], difference: 1, low: 0.6075, high: 1 },
]

test.each(published)("gives the published interval of $one and $other", ({ one, other, ...expected }) => {
  const counted = ([met = 0, total = 0]: number[]) => ({ met, total })

  expect(newcombeDifference(counted(one), counted(other))).toEqual({
    difference: expect.closeTo(expected.difference, 4),
    low: expect.closeTo(expected.low, 4),
    high: expect.closeTo(expected.high, 4),
  })
})

test("has no difference to nobody", () => {
  expect(newcombeDifference({ met: 3, total: 5 }, { met: 0, total: 0 })).toBeNull()
  expect(newcombeDifference({ met: 0, total: 0 }, { met: 3, total: 5 })).toBeNull()
})
