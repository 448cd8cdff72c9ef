import fc from "fast-check"
import { expect, test } from "vitest"
import { benjaminiHochberg } from "../../lib/statistics/benjamini-hochberg"
import { newcombeDifference } from "../../lib/statistics/newcombe-difference"
import { pLimits } from "../../lib/statistics/p-limits"
import { pPrimeLimits } from "../../lib/statistics/p-prime-limits"
import { pairedDifference } from "../../lib/statistics/paired-difference"
import { runSignal } from "../../lib/statistics/run-signal"

const counted = fc
  .integer({ min: 0, max: 400 })
  .chain((total) => fc.record({ total: fc.constant(total), met: fc.integer({ min: 0, max: total }) }))
const series = fc.array(counted, { minLength: 0, maxLength: 40 })
const people = fc.integer({ min: 0, max: 300 })

test("limits hold the centre, stay within 0 and 1, and p' limits are never the narrower", () => {
  fc.assert(
    fc.property(series, (points) => {
      const plain = pLimits({ points, baseline: 12 })
      const widened = pPrimeLimits({ points, baseline: 12 })

      expect(widened.ok).toBe(plain.ok)
      if (!plain.ok || !widened.ok) return
      for (const [place, limits] of widened.points.entries()) {
        const narrow = plain.points[place]
        if (limits === null || narrow === null || narrow === undefined) continue
        expect(limits.low).toBeGreaterThanOrEqual(0)
        expect(limits.low).toBeLessThanOrEqual(narrow.low)
        expect(narrow.low).toBeLessThanOrEqual(plain.centre)
        expect(narrow.high).toBeGreaterThanOrEqual(plain.centre)
        expect(limits.high).toBeGreaterThanOrEqual(narrow.high)
        expect(limits.high).toBeLessThanOrEqual(1)
      }
    }),
  )
})

test("a series and its mirror have the same runs and crossings", () => {
  fc.assert(
    fc.property(fc.array(fc.option(fc.integer({ min: -3, max: 3 })), { maxLength: 60 }), (values) => {
      const mirror = values.map((value) => (value === null ? null : 0 - value))

      expect(runSignal(mirror, 0)).toEqual(runSignal(values, 0))
      expect(runSignal([...values].reverse(), 0)).toEqual(runSignal(values, 0))
    }),
  )
})

test("adjusted chances are none below their own, none above 1, and keep their order", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 }), (chances) => {
      const adjusted = benjaminiHochberg(chances)

      for (const [place, p] of chances.entries()) {
        expect(adjusted[place]).toBeGreaterThanOrEqual(p)
        expect(adjusted[place]).toBeLessThanOrEqual(1)
        for (const [other, q] of chances.entries()) {
          if (p <= q) expect(adjusted[place]).toBeLessThanOrEqual(adjusted[other] ?? NaN)
        }
      }
    }),
  )
})

test("the difference of two groups turns its sign when they change places", () => {
  fc.assert(
    fc.property(counted, counted, (one, other) => {
      const there = newcombeDifference(one, other)
      const back = newcombeDifference(other, one)

      expect(there === null).toBe(one.total === 0 || other.total === 0)
      if (there === null || back === null) return
      expect(there.low).toBeCloseTo(-back.high, 12)
      expect(there.low).toBeLessThanOrEqual(there.difference)
      expect(there.high).toBeGreaterThanOrEqual(there.difference)
    }),
  )
})

test("the paired difference turns its sign when the months change places, and lies in its interval", () => {
  fc.assert(
    fc.property(fc.record({ bothMet: people, gained: people, lost: people, neither: people }), (counts) => {
      const there = pairedDifference(counts)
      const back = pairedDifference({ ...counts, gained: counts.lost, lost: counts.gained })

      if (there === null || back === null) return
      expect(there.low).toBeCloseTo(-back.high, 12)
      expect(there.p).toBeCloseTo(back.p, 12)
      expect(there.low).toBeLessThanOrEqual(there.difference)
      expect(there.high).toBeGreaterThanOrEqual(there.difference)
    }),
  )
})
