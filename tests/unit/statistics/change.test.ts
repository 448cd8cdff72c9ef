import { expect, test } from "vitest"
import { splitChange } from "../../../lib/statistics/change"

const worked = {
  earlierMet: 124,
  earlierTotal: 200,
  laterMet: 140,
  laterTotal: 210,
  continuing: 185,
  gained: 19,
  lost: 9,
  left: 15,
  leftMet: 7,
  joined: 25,
  joinedMet: 13,
}

// worked by hand from the identity: 19/185, 9/185, (15/200)(117/185 - 7/15), (25/210)(13/25 - 127/185)
test("splits the worked example into its four parts", () => {
  const change = splitChange(worked)

  expect(change).toEqual({
    ok: true,
    total: expect.closeTo(0.046667, 6),
    gained: expect.closeTo(0.102703, 6),
    lost: expect.closeTo(-0.048649, 6),
    left: expect.closeTo(0.012432, 6),
    joined: expect.closeTo(-0.01982, 6),
  })
})

test("says so when a month has nobody to count", () => {
  const empty = {
    ...worked,
    earlierMet: 0,
    earlierTotal: 0,
    continuing: 0,
    gained: 0,
    lost: 0,
    left: 0,
    leftMet: 0,
    joined: 210,
    joinedMet: 140,
  }

  expect(splitChange(empty)).toEqual({ ok: false, reason: "empty-denominator" })
})

test("says so when nobody is in both months", () => {
  const strangers = {
    ...worked,
    continuing: 0,
    gained: 0,
    lost: 0,
    left: 200,
    leftMet: 124,
    joined: 210,
    joinedMet: 140,
  }

  expect(splitChange(strangers)).toEqual({ ok: false, reason: "no-common-patients" })
})

test("refuses counts that do not add up", () => {
  expect(() => splitChange({ ...worked, gained: 20 })).toThrow(RangeError)
})
