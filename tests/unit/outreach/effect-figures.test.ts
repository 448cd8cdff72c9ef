import { expect, test } from "vitest"
import { pairFigure } from "../../../lib/outreach/effect-figures"

// Newcombe 1998, Stat Med 17:873-890, method 10: 56 of 70 and 48 of 80 differ by 0.2000 (0.0524 to 0.3339); here of equal totals
// by the same formula worked out by hand: Wilson 24/40 (0.4460, 0.7365) and 16/40 (0.2635, 0.5540), so
// 0.2 - sqrt(0.1540^2 + 0.1540^2) = -0.0178 and 0.2 + sqrt(0.1365^2 + 0.1365^2) = 0.3930.
test("shares and their difference are shown with their intervals", () => {
  const { shown } = pairFigure(30, { pairs: 40, contacted_resolved: 24, others_resolved: 16 }, 20)

  expect(shown?.contacted).toMatchObject({ resolved: 24, total: 40, rate: 0.6 })
  expect(shown?.contacted.interval.low).toBeCloseTo(0.446, 3)
  expect(shown?.contacted.interval.high).toBeCloseTo(0.7365, 3)
  expect(shown?.difference.difference).toBeCloseTo(0.2, 10)
  expect(shown?.difference.low).toBeCloseTo(-0.0178, 3)
  expect(shown?.difference.high).toBeCloseTo(0.393, 3)
})

test("of too few pairs the counts are told alone", () => {
  expect(pairFigure(90, { pairs: 19, contacted_resolved: 12, others_resolved: 3 }, 20)).toEqual({
    ...{ days: 90, pairs: 19, contactedResolved: 12, othersResolved: 3 },
    shown: null,
  })
})
