import { expect, test } from "vitest"
import { tQuantile975 } from "../../../lib/statistics/t-quantile"
import vectors from "../../fixtures/vectors/t-quantile.json"

test.each(vectors)("gives the quantile at $degrees degrees of freedom ($source)", (vector) => {
  expect(Math.abs(tQuantile975(vector.degrees) - vector.expected)).toBeLessThanOrEqual(vector.tolerance)
})

test("falls with every degree of freedom, across the seam between the two methods", () => {
  const quantiles = Array.from({ length: 400 }, (_, index) => tQuantile975(index + 1))

  const rises = quantiles.filter((quantile, index) => quantile >= (quantiles[index - 1] ?? Infinity))

  expect(rises).toEqual([])
})

test.each([0, -1, 2.5, Number.NaN])("refuses %d degrees of freedom", (degrees) => {
  expect(() => tQuantile975(degrees)).toThrow(RangeError)
})
