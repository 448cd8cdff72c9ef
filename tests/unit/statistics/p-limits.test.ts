import { expect, test } from "vitest"
import { pLimits } from "../../../lib/statistics/p-limits"
import { pPrimeLimits } from "../../../lib/statistics/p-prime-limits"
import { emergencyWeeks } from "../../fixtures/statistics/emergency-weeks"
import { stableSeries } from "../../fixtures/statistics/stable-series"

const outsideOf = (limits: ReturnType<typeof pLimits>) =>
  limits.ok ? limits.points.map((point) => point?.outside ?? null) : []

// computed in R from the formula of the p chart
test("gives the limits of a series that does not change", () => {
  const limits = pLimits({ points: stableSeries, baseline: 14 })

  expect(limits).toMatchObject({
    ok: true,
    centre: expect.closeTo(0.62462, 6),
    sigmaZ: 1,
    baselinePoints: 14,
  })
  expect(limits.ok && limits.points[0]).toMatchObject({
    low: expect.closeTo(0.5214, 4),
    high: expect.closeTo(0.7279, 4),
  })
  expect(limits.ok && limits.points[13]).toMatchObject({
    low: expect.closeTo(0.5276, 4),
    high: expect.closeTo(0.7217, 4),
  })
  expect(outsideOf(limits)).toEqual(stableSeries.map(() => null))
})

// computed in R from the formula of the p' chart: sigma z 0.5702
test("narrows the p' limits as published only where that is asked for", () => {
  const published = pPrimeLimits({ points: stableSeries, baseline: 14, leastSigma: 0 })
  const used = pPrimeLimits({ points: stableSeries, baseline: 14 })

  expect(published).toMatchObject({ ok: true, sigmaZ: expect.closeTo(0.5702, 4) })
  expect(published.ok && published.points.slice(0, 2)).toMatchObject([
    { low: expect.closeTo(0.5658, 4), high: expect.closeTo(0.6835, 4) },
    { low: expect.closeTo(0.5662, 4), high: expect.closeTo(0.683, 4) },
  ])
  expect(used).toEqual(pLimits({ points: stableSeries, baseline: 14 }))
})

// England's emergency departments, 20 weeks, as shipped with a published R package; limits computed in R
test("puts 16 of 20 weeks of a whole country outside the p limits and none outside the p' limits", () => {
  const plain = pLimits({ points: emergencyWeeks, baseline: 20 })
  const widened = pPrimeLimits({ points: emergencyWeeks, baseline: 20 })

  expect(plain).toMatchObject({ ok: true, centre: expect.closeTo(0.9528997, 7) })
  expect(plain.ok && plain.points[0]).toMatchObject({
    low: expect.closeTo(0.9516996, 7),
    high: expect.closeTo(0.9540999, 7),
  })
  expect(outsideOf(plain).filter((side) => side !== null)).toHaveLength(16)
  expect(widened).toMatchObject({ ok: true, sigmaZ: expect.closeTo(10.64042, 5) })
  expect(widened.ok && widened.points[0]).toMatchObject({
    low: expect.closeTo(0.9401296, 6),
    high: expect.closeTo(0.9656698, 6),
  })
  expect(outsideOf(widened).filter((side) => side !== null)).toEqual([])
})

test("keeps the limits of the baseline when later months come, and judges those by them", () => {
  const baseline = stableSeries.slice(0, 12)
  const before = pPrimeLimits({ points: baseline, baseline: 12 })
  const after = pPrimeLimits({
    points: [...baseline, { met: 40, total: 200 }, { met: 190, total: 200 }],
    baseline: 12,
  })

  expect(after.ok && after.points.slice(0, 12)).toEqual(before.ok && before.points)
  expect(outsideOf(after).slice(12)).toEqual(["below", "above"])
})

test("passes over a month without anybody", () => {
  const points = [...stableSeries.slice(0, 6), { met: 0, total: 0 }, ...stableSeries.slice(6)]

  const limits = pPrimeLimits({ points, baseline: 15 })

  expect(limits).toMatchObject({ ok: true, baselinePoints: 14 })
  expect(limits.ok && limits.points[6]).toBeNull()
})

// 0.62462: 13 people expect 4.88 not to meet, 14 expect 5.26
test("lets no month of a few people be outside", () => {
  const points = [...stableSeries, { met: 0, total: 13 }, { met: 0, total: 14 }]

  const limits = pLimits({ points, baseline: 14 })

  expect(limits.ok && limits.points.slice(14)).toMatchObject([
    { isThin: true, outside: null },
    { isThin: false, outside: "below" },
  ])
})

test("has no limits without enough months or without any spread", () => {
  const allMet = stableSeries.map(({ total }) => ({ met: total, total }))

  expect(pLimits({ points: stableSeries, baseline: 9 })).toEqual({
    ok: false,
    reason: "too-few-points",
    baselinePoints: 9,
  })
  expect(pPrimeLimits({ points: allMet, baseline: 12 })).toMatchObject({ ok: false, reason: "no-spread" })
})

test("refuses more met than counted, and a baseline of nothing", () => {
  expect(() => pLimits({ points: [{ met: 3, total: 2 }], baseline: 12 })).toThrow(RangeError)
  expect(() => pPrimeLimits({ points: stableSeries, baseline: 0 })).toThrow(RangeError)
})
