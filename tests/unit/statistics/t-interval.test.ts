import { expect, test } from "vitest"
import { tInterval } from "../../../lib/statistics/t-interval"

// t is 3.182 at 3 degrees of freedom in the NIST/SEMATECH e-Handbook; the rest is the textbook formula
test("gives the interval of four paired differences worked by hand", () => {
  const interval = tInterval({ n: 4, mean: -200, sd: Math.sqrt(20000) })

  expect(interval?.low).toBeCloseTo(-200 - (3.182 * Math.sqrt(20000)) / 2, 0)
  expect(interval?.high).toBeCloseTo(25, 0)
})

// sleep, group 1: Student 1908, Biometrika 6:1-25; R t.test(extra ~ 1, subset = group == 1) prints these limits
test("gives the interval of Student's own ten patients", () => {
  const extraHours = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]
  const mean = extraHours.reduce((sum, hours) => sum + hours, 0) / 10
  const sd = Math.sqrt(extraHours.reduce((sum, hours) => sum + (hours - mean) ** 2, 0) / 9)

  const interval = tInterval({ n: 10, mean, sd })

  expect(interval?.low).toBeCloseTo(-0.5297804, 6)
  expect(interval?.high).toBeCloseTo(2.02978, 5)
})

test("has no interval for fewer than two people", () => {
  expect(tInterval({ n: 1, mean: 3140, sd: null })).toBeNull()
  expect(tInterval({ n: 0, mean: null, sd: null })).toBeNull()
})

test("refuses a negative spread", () => {
  expect(() => tInterval({ n: 3, mean: 1, sd: -1 })).toThrow(RangeError)
})
