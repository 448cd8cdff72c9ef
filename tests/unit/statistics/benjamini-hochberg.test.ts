import { expect, test } from "vitest"
import { benjaminiHochberg } from "../../../lib/statistics/benjamini-hochberg"
import reference from "../../fixtures/statistics/p-adjust.json"

// R p.adjust(p, "BH")
test("adjusts ten chances", () => {
  const adjusted = benjaminiHochberg([0.001, 0.008, 0.012, 0.021, 0.034, 0.046, 0.12, 0.3, 0.45, 0.8])

  const expected = [0.01, 0.04, 0.04, 0.0525, 0.068, 0.0767, 0.1714, 0.375, 0.5, 0.8]
  expect(adjusted).toEqual(expected.map((p) => expect.closeTo(p, 4)))
})

// R p.adjust, see the command in the file
test.each(reference.rows)("adjusts $chances.length chances in any order", ({ chances, expected }) => {
  expect(benjaminiHochberg(chances)).toEqual(expected.map((p) => expect.closeTo(p, 8)))
})

test("has nothing to adjust, and refuses what is no chance", () => {
  expect(benjaminiHochberg([])).toEqual([])
  expect(() => benjaminiHochberg([0.2, 1.2])).toThrow(RangeError)
})
