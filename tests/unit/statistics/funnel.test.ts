import { expect, test } from "vitest"
import { binomialLimit } from "../../../lib/statistics/binomial-limit"
import { funnel } from "../../../lib/statistics/funnel"
import dispersion from "../../fixtures/statistics/funnel-dispersion.json"
import limits from "../../fixtures/statistics/funnel-limits.json"

const probabilities = [0.001, 0.025, 0.975, 0.999]

// R qbinom, pbinom and dbinom, see the command in the file
test.each(limits.rows)(
  "gives the exact limits of $total people around $target",
  ({ target, total, limits }) => {
    const found = probabilities.map((probability) => binomialLimit({ target, total, probability }))

    expect(found).toEqual(limits.map((limit) => expect.closeTo(limit, 7)))
  },
)

// R, see the commands in the file
test.each(dispersion.rows)("judges how far $units.length units vary beyond chance", (row) => {
  const found = funnel(row.units)

  expect(found).toMatchObject({
    target: expect.closeTo(row.target, 9),
    phi: expect.closeTo(row.phi, 9),
    tauSquared: expect.closeTo(row.tauSquared, 9),
    isAdjusted: true,
  })
  if (row.z !== undefined)
    expect(found?.units.map(({ z }) => z)).toEqual(row.z.map((z) => expect.closeTo(z, 9)))
  if (row.adjustedZ !== undefined) {
    expect(found?.units.map(({ adjustedZ }) => adjustedZ)).toEqual(
      row.adjustedZ.map((z) => expect.closeTo(z, 9)),
    )
  }
})

// 0.65 of all: the table above, 100 people
test("keeps the exact limits where units vary no more than chance gives", () => {
  const found = funnel([
    { met: 13, total: 20 },
    { met: 26, total: 40 },
    { met: 39, total: 60 },
  ])

  expect(found).toMatchObject({ target: 0.65, phi: 0, tauSquared: 0, isAdjusted: false })
  expect(found?.limitsAt(100)).toEqual({
    wide: { low: expect.closeTo(0.4937, 4), high: expect.closeTo(0.7876, 4) },
    narrow: { low: expect.closeTo(0.5503, 4), high: expect.closeTo(0.7372, 4) },
  })
})

test("widens the limits by what units vary beyond chance, within 0 and 1", () => {
  const found = funnel([
    { met: 2, total: 40 },
    { met: 38, total: 40 },
    { met: 20, total: 40 },
  ])

  const spread = Math.sqrt(0.25 / 40 + (found?.tauSquared ?? NaN))
  expect(found?.limitsAt(40).narrow.low).toBeCloseTo(Math.max(0, 0.5 - 1.959964 * spread), 6)
  expect(found?.limitsAt(40).wide).toEqual({ low: 0, high: 1 })
})

test("has no funnel of one unit, or where all or nobody met", () => {
  expect(funnel([{ met: 3, total: 9 }])).toBeNull()
  expect(
    funnel([
      { met: 9, total: 9 },
      { met: 4, total: 4 },
    ]),
  ).toBeNull()
  expect(
    funnel([
      { met: 0, total: 9 },
      { met: 0, total: 4 },
    ]),
  ).toBeNull()
})

test("refuses a unit of nobody, and a limit that none is", () => {
  expect(() =>
    funnel([
      { met: 0, total: 0 },
      { met: 1, total: 2 },
    ]),
  ).toThrow(RangeError)
  expect(() => binomialLimit({ target: 0.5, total: 0, probability: 0.025 })).toThrow(RangeError)
  expect(() => binomialLimit({ target: 1, total: 5, probability: 0.025 })).toThrow(RangeError)
})
