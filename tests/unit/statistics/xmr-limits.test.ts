import { expect, test } from "vitest"
import { xmrLimits } from "../../../lib/statistics/xmr-limits"

const values = [61.1, 62.2, 61.5, 63.1, 59.9, 62.4, 61.3, 63.6, 60.3, 63.9, 62.1, 64.7, 62.9, 65.2]

// computed in R from the formulas with 2.66 and 3.268
test("gives the limits of fourteen values", () => {
  expect(xmrLimits(values, 14)).toMatchObject({
    ok: true,
    centre: expect.closeTo(62.443, 3),
    low: expect.closeTo(56.734, 3),
    high: expect.closeTo(68.152, 3),
    rangeCentre: expect.closeTo(2.1462, 4),
    rangeLimit: expect.closeTo(7.014, 3),
  })
})

test("judges later values and steps by the baseline, which stays", () => {
  const limits = xmrLimits([...values, 66, 58, 69], 14)

  expect(limits).toMatchObject({ centre: expect.closeTo(62.443, 3), baselinePoints: 14 })
  expect(limits.ok && limits.points.slice(14)).toEqual([
    { outside: null, range: expect.closeTo(0.8, 9), isRangeOutside: false },
    { outside: null, range: 8, isRangeOutside: true },
    { outside: "above", range: 11, isRangeOutside: true },
  ])
})

test("steps over a month without a value", () => {
  const limits = xmrLimits([...values.slice(0, 5), null, ...values.slice(5)], 15)

  expect(limits).toMatchObject({ centre: expect.closeTo(62.443, 3), low: expect.closeTo(56.734, 3) })
  expect(limits.ok && limits.points[5]).toBeNull()
})

test("has no limits without enough values or when they are all the same", () => {
  const same = values.map(() => 3)

  expect(xmrLimits(values, 9)).toEqual({ ok: false, reason: "too-few-points", baselinePoints: 9 })
  expect(xmrLimits(same, 14)).toEqual({ ok: false, reason: "no-spread", baselinePoints: 14 })
  expect(() => xmrLimits(values, 0)).toThrow(RangeError)
})
