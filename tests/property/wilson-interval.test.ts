import fc from "fast-check"
import { expect, test } from "vitest"
import { wilsonInterval } from "../../lib/statistics/wilson-interval"

const counts = fc
  .integer({ min: 1, max: 5000 })
  .chain((total) => fc.record({ total: fc.constant(total), met: fc.integer({ min: 0, max: total }) }))

test("an interval stays within 0 and 1 and holds its share", () => {
  fc.assert(
    fc.property(counts, ({ met, total }) => {
      const interval = wilsonInterval(met, total)

      expect(interval?.low).toBeGreaterThanOrEqual(0)
      expect(interval?.high).toBeLessThanOrEqual(1)
      expect(interval?.low).toBeLessThanOrEqual(met / total)
      expect(interval?.high).toBeGreaterThanOrEqual(met / total)
    }),
  )
})

test("an interval of the unmet is the mirror of the interval of the met", () => {
  fc.assert(
    fc.property(counts, ({ met, total }) => {
      const interval = wilsonInterval(met, total)
      const mirror = wilsonInterval(total - met, total)

      expect(1 - (mirror?.high ?? NaN)).toBeCloseTo(interval?.low ?? NaN, 12)
    }),
  )
})
