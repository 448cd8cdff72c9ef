import { expect, test } from "vitest"
import { splitChange } from "../../../lib/statistics/change"
import { changeCounts } from "../../../lib/statistics/change-counts"

const moves = [
  { earlier: "met", later: "met", people: 40 },
  { earlier: "not met", later: "met", people: 6 },
  { earlier: "unknown", later: "met", people: 2 },
  { earlier: "met", later: "not met", people: 3 },
  { earlier: "met", later: "unknown", people: 1 },
  { earlier: "not met", later: "unknown", people: 5 },
  { earlier: "met", later: "excluded", people: 4 },
  { earlier: "unknown", later: null, people: 2 },
  { earlier: null, later: "met", people: 7 },
  { earlier: "outside", later: "not met", people: 3 },
  { earlier: "exception", later: "exception", people: 9 },
] as const

// counted by hand from the definitions of gained, lost, joined and left
test("counts the unmeasured among the denominator when more is better", () => {
  expect(changeCounts(moves, "up")).toEqual({
    earlierMet: 48,
    earlierTotal: 63,
    laterMet: 55,
    laterTotal: 67,
    continuing: 57,
    gained: 8,
    lost: 4,
    left: 6,
    leftMet: 4,
    joined: 10,
    joinedMet: 7,
  })
})

test("lets people join by being measured and leave by not being measured when less is better", () => {
  expect(changeCounts(moves, "down")).toMatchObject({
    earlierTotal: 59,
    gained: 6,
    lost: 3,
    left: 10,
    leftMet: 5,
    joined: 12,
    joinedMet: 9,
  })
})

test("gives counts that add up for both directions", () => {
  expect(splitChange(changeCounts(moves, "up"))).toMatchObject({ ok: true })
  expect(splitChange(changeCounts(moves, "down"))).toMatchObject({ ok: true })
})
