import { expect, test } from "vitest"
import { rateOf } from "../../../lib/statistics/rate"

const counts = { population: 240, excluded: 20, unknown: 22, met: 138, exception: 8, notMet: 52 }

// 138, 52 and 22: R prop.test(138, 212, correct = FALSE) for the interval
test("counts whoever was not measured against the clinic when more is better", () => {
  expect(rateOf(counts, "up")).toEqual({
    met: 138,
    total: 212,
    rate: 138 / 212,
    interval: { low: expect.closeTo(0.5846, 4), high: expect.closeTo(0.7119, 4) },
    measured: 190,
    ofMeasured: 138 / 190,
  })
})

test("leaves the unmeasured beside the rate when less is better", () => {
  const rate = rateOf(counts, "down")

  expect(rate.total).toBe(190)
  expect(rate.rate).toBe(138 / 190)
})

test("has no rate, rather than zero, when nobody is in the denominator", () => {
  const nobody = { population: 3, excluded: 2, unknown: 0, met: 0, exception: 1, notMet: 0 }

  expect(rateOf(nobody, "up")).toMatchObject({ rate: null, interval: null, ofMeasured: null, total: 0 })
})

test("keeps a rate of zero apart from no rate when all are unmeasured", () => {
  const unmeasured = { population: 4, excluded: 0, unknown: 4, met: 0, exception: 0, notMet: 0 }

  expect(rateOf(unmeasured, "up").rate).toBe(0)
  expect(rateOf(unmeasured, "down").rate).toBeNull()
})
