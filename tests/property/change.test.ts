import fc from "fast-check"
import { expect, test } from "vitest"
import { splitChange } from "../../lib/statistics/change"

/** One person in two months: absent from a denominator, in it and not met, or in it and met. */
const person = fc.record({
  earlier: fc.constantFrom("absent", "not met", "met"),
  later: fc.constantFrom("absent", "not met", "met"),
})

test("the four parts of a change sum to the change for any membership", () => {
  fc.assert(
    fc.property(fc.array(person, { minLength: 1, maxLength: 400 }), (people) => {
      const number = (earlier: string[], later: string[]) =>
        people.filter((one) => earlier.includes(one.earlier) && later.includes(one.later)).length
      const inside = ["met", "not met"]
      const all = ["absent", ...inside]

      const change = splitChange({
        earlierMet: number(["met"], all),
        earlierTotal: number(inside, all),
        laterMet: number(all, ["met"]),
        laterTotal: number(all, inside),
        continuing: number(inside, inside),
        gained: number(["not met"], ["met"]),
        lost: number(["met"], ["not met"]),
        left: number(inside, ["absent"]),
        leftMet: number(["met"], ["absent"]),
        joined: number(["absent"], inside),
        joinedMet: number(["absent"], ["met"]),
      })

      fc.pre(change.ok)
      const sum = change.gained + change.lost + change.left + change.joined
      expect(Math.abs(sum - change.total)).toBeLessThanOrEqual(1e-12)
    }),
  )
})
