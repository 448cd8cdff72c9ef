import { expect, test } from "vitest"
import { placeOn, scaleOver, twoTicks } from "../../../app/_ui/chart-scale"

test("holds every value and is never narrower than asked", () => {
  const scale = scaleOver([0.61, null, 0.62], { least: 0.1, floor: 0, ceiling: 1 })

  expect(scale.low).toBeLessThan(0.61)
  expect(scale.high).toBeGreaterThan(0.62)
  expect(scale.high - scale.low).toBeGreaterThanOrEqual(0.1)
})

test("stays within what can be", () => {
  expect(scaleOver([0, 1], { least: 0.1, floor: 0, ceiling: 1 })).toEqual({ low: 0, high: 1 })
})

test("has an axis even where nothing is known", () => {
  expect(scaleOver([null], { least: 0.1, floor: 0, ceiling: 1 })).toEqual({ low: 0, high: 0.1 })
})

test("places the ends at 0 and 1", () => {
  expect(placeOn({ low: 1500, high: 4000 }, 1500)).toBe(0)
  expect(placeOn({ low: 1500, high: 4000 }, 4000)).toBe(1)
})

test.each([
  [0.31, 0.44],
  [0.05, 0.9],
  [1350, 4100],
])("marks at most two round numbers between %d and %d", (low, high) => {
  const ticks = twoTicks({ low, high })

  expect(ticks.length).toBeGreaterThan(0)
  expect(ticks.length).toBeLessThanOrEqual(2)
  expect(ticks.every((tick) => tick >= low && tick <= high)).toBe(true)
})
