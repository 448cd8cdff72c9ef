import { expect, test } from "vitest"
import { binomialProbabilities } from "../../../lib/statistics/binomial"
import reference from "../../fixtures/statistics/binomial.json"

// R dbinom, see the command in the file
test.each(reference.rows)("gives the chance of $k in $n at $chance", ({ n, chance, k, expected }) => {
  const found = binomialProbabilities(n, chance)[k] ?? NaN

  expect(Math.abs(found - expected)).toBeLessThanOrEqual(expected * 1e-10 + 1e-300)
})

test("puts everything on the sure number", () => {
  expect(binomialProbabilities(3, 0)).toEqual([1, 0, 0, 0])
  expect(binomialProbabilities(3, 1)).toEqual([0, 0, 0, 1])
  expect(binomialProbabilities(0, 0.3)).toEqual([1])
})

test.each([
  [-1, 0.5],
  [1.5, 0.5],
  [3, 1.1],
  [3, Number.NaN],
])("refuses %d trials at %d", (n, chance) => {
  expect(() => binomialProbabilities(n, chance)).toThrow(RangeError)
})
