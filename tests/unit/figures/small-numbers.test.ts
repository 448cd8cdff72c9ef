import { expect, test } from "vitest"
import { dietFigure, drawnPoints } from "../../../lib/figures/diet-figure"
import { dietShares } from "../../../lib/figures/diet-shares"
import { drawnRates } from "../../../lib/figures/drawn-rates"
import { rateOf } from "../../../lib/statistics/rate"

// Twenty for a percentage, five for a mean: common practice, no source.

const days = Array.from({ length: 13 }, (_, place) => new Date(Date.UTC(2025, 10 + place, 0)))
const asOfs = days.map((day) => day.toISOString().slice(0, 10))

function diet(people: { counted: number; urine: number }) {
  const row = (as_of: string, series: string, n: number) => ({
    ...{ as_of, series, n, mean_mg: 3000, sd_mg: 400 },
    ...{ paired_n: 0, paired_change_mg: null, paired_sd_mg: null },
  })
  const rows = asOfs.flatMap((day) => [
    row(day, "counted days", people.counted),
    row(day, "24-hour urine", people.urine),
  ])
  return dietFigure(rows, asOfs, asOfs.at(-1) ?? "")
}

test("the ways of asking of fewer than 20 people are counts, without shares and without a shift", () => {
  expect(dietShares(diet({ counted: 1, urine: 1 }))).toBe("Counted days 1 and 24-hour urine 1.")
  expect(dietShares(diet({ counted: 15, urine: 5 }))).toBe(
    "Counted days 15 (75%) and 24-hour urine 5 (25%). Much the same shares as a year before.",
  )
})

test("a mean of fewer than five people is not drawn, nor its interval", () => {
  const of = (counted: number) => drawnPoints(diet({ counted, urine: 9 }).headline).at(-1)

  expect(of(4)).toMatchObject({ n: 4, meanMg: null, interval: null })
  expect(of(5)).toMatchObject({ n: 5, meanMg: 3000 })
})

test("the median that a line is held against is that of the months of five people or more", () => {
  expect(diet({ counted: 4, urine: 9 }).headline.baselineMg).toBeNull()
  expect(diet({ counted: 5, urine: 9 }).headline.baselineMg).toBe(3000)
})

test("the share of a month is drawn where it is judged or counts 20", () => {
  const month = (met: number, notMet: number, isJudged: boolean) => {
    const counts = { population: met + notMet, excluded: 0, unknown: 0, met, exception: 0, notMet }
    const rate = rateOf(counts, "up")
    const point = { value: rate.rate, people: rate.total, low: null, high: null, outside: null, isJudged }
    return { rate, point: { asOf: "2026-10-31", ...point } }
  }
  const drawn = (months: ReturnType<typeof month>[]) =>
    drawnRates({ points: months.map(({ point }) => point), rates: months.map(({ rate }) => rate) })

  expect(drawn([month(10, 10, false), month(10, 9, false), month(10, 9, true)])).toEqual([0.5, null, 10 / 19])
  expect(drawn([month(10, 10, false), month(10, 9, false)])).toEqual([null, null])
})
