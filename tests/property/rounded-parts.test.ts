import fc from "fast-check"
import { expect, test } from "vitest"
import { roundedParts } from "../../lib/statistics/rounded-parts"

const parts = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 6 })

test("rounded parts sum to their rounded whole and move less than one step", () => {
  fc.assert(
    fc.property(parts, (exact) => {
      const rounded = roundedParts(exact, 1)

      const whole = Math.floor(exact.reduce((sum, part) => sum + part, 0) + 0.5)
      expect(rounded.reduce((sum, part) => sum + part, 0)).toBe(whole)
      rounded.forEach((part, place) => expect(Math.abs(part - (exact[place] ?? NaN))).toBeLessThanOrEqual(1))
    }),
  )
})
