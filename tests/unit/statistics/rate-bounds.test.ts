import { expect, test } from "vitest"
import { rateBounds } from "../../../lib/statistics/rate-bounds"

const nobody = { population: 0, excluded: 0, unknown: 0, met: 0, exception: 0, notMet: 0 }

// By hand from the definitions: met / all and (met + unknown) / all with 138 met, 52 not met and 22 unknown.
test("the bounds put everyone not measured on the one side, then on the other", () => {
  const bounds = rateBounds({ population: 220, excluded: 5, unknown: 22, met: 138, exception: 3, notMet: 52 })

  expect(bounds?.low).toBeCloseTo(138 / 212, 12)
  expect(bounds?.high).toBeCloseTo(160 / 212, 12)
})

test("nobody to count has no bounds", () => {
  expect(rateBounds(nobody)).toBeNull()
})
