import { expect, test } from "vitest"
import { median } from "../../../lib/statistics/median"

test("takes the middle value of an odd number, whatever their order", () => {
  expect(median([10, 1, 3])).toBe(3)
})

test("takes the mean of the two in the middle of an even number", () => {
  expect(median([4, 1, 2, 10])).toBe(3)
})

test("passes over months without a value", () => {
  expect(median([null, 5, null])).toBe(5)
  expect(median([null])).toBeNull()
})
