import { expect, test } from "vitest"
import { wilsonInterval } from "../../../lib/statistics/wilson-interval"
import vectors from "../../fixtures/vectors/wilson-interval.json"

test.each(vectors)("gives the published interval of $met of $total ($source)", (vector) => {
  const interval = wilsonInterval(vector.met, vector.total)

  expect(Math.abs((interval?.low ?? NaN) - vector.low)).toBeLessThanOrEqual(vector.tolerance)
  expect(Math.abs((interval?.high ?? NaN) - vector.high)).toBeLessThanOrEqual(vector.tolerance)
})

test("has no interval for an empty denominator", () => {
  expect(wilsonInterval(0, 0)).toBeNull()
})

test.each([
  [5, 4],
  [-1, 4],
  [1.5, 4],
])("refuses %d of %d", (met, total) => {
  expect(() => wilsonInterval(met, total)).toThrow(RangeError)
})
