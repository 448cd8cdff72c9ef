import { expect, test } from "vitest"
import { roundedParts } from "../../../lib/statistics/rounded-parts"

// worked by hand by the largest remainder method
test("gives the steps left over to the parts that were cut most", () => {
  const rounded = roundedParts([0.64, -0.58, -0.61, 0.92], 0.1)

  expect(rounded.map((part) => part.toFixed(1))).toEqual(["0.7", "-0.6", "-0.6", "0.9"])
})

test("keeps parts that are multiples of the step", () => {
  expect(roundedParts([2, -1, 0, 3], 1)).toEqual([2, -1, 0, 3])
})

test("refuses a step of nothing", () => {
  expect(() => roundedParts([1], 0)).toThrow(RangeError)
})
