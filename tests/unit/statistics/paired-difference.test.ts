import { expect, test } from "vitest"
import { pairedDifference } from "../../../lib/statistics/paired-difference"
import mcnemar from "../../fixtures/statistics/mcnemar.json"

// computed in R from the formula: -0.147 to 10.919 points; binom.test(19, 28) gives 0.087
test("gives the interval of the worked example", () => {
  expect(pairedDifference({ bothMet: 108, gained: 19, lost: 9, neither: 49 })).toEqual({
    difference: expect.closeTo(10 / 185, 9),
    low: expect.closeTo(-0.001474, 5),
    high: expect.closeTo(0.109191, 5),
    p: expect.closeTo(0.087, 3),
  })
})

// R binom.test, see the command in the file
test.each(mcnemar.rows)("gives the exact chance of $gained against $lost", ({ gained, lost, expected }) => {
  expect(pairedDifference({ bothMet: 50, gained, lost, neither: 50 })?.p).toBeCloseTo(expected, 10)
})

test("says that nothing changed where nobody did", () => {
  const nobodyChanged = pairedDifference({ bothMet: 20, gained: 0, lost: 0, neither: 0 })

  expect(nobodyChanged).toMatchObject({ difference: 0, p: 1 })
  expect(nobodyChanged?.low).toBeCloseTo(-(nobodyChanged?.high ?? NaN), 12)
})

test("has no difference without anybody, and refuses counts that are none", () => {
  expect(pairedDifference({ bothMet: 0, gained: 0, lost: 0, neither: 0 })).toBeNull()
  expect(() => pairedDifference({ bothMet: 5, gained: -1, lost: 2, neither: 0 })).toThrow(RangeError)
})
