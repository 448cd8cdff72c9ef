import { expect, it } from "vitest"
import { lastDayOfMonth } from "../../../lib/domain/plain-date"
import { dietSignals } from "../../../lib/figures/diet-signals"

// Fourteen values with the limits 56.734 to 68.152 over all of them: the measure reference, part 3.7, computed in R.
const published = [61.1, 62.2, 61.5, 63.1, 59.9, 62.4, 61.3, 63.6, 60.3, 63.9, 62.1, 64.7, 62.9, 65.2]
// The same from the first twelve alone, by hand: mean 62.175, mean step 23.8 / 11.
const mean = 746.1 / 12
const step = 23.8 / 11

function judged(values: readonly (number | null)[], people = 30) {
  const points = values.map((meanMg, place) => ({
    asOf: lastDayOfMonth(`${2024 + Math.floor(place / 12)}-${String((place % 12) + 1).padStart(2, "0")}`),
    ...{ n: people, meanMg, interval: null },
  }))
  const [first] = points
  if (!first) throw new Error("no points")
  const series = { name: "counted days", points, now: first, paired: null, baselineMg: null }
  return dietSignals({ series, chosen: points.length - 1, chosenBaseline: null })
}

it("holds the means against limits of the first year", () => {
  const { points, judgement } = judged(published)

  expect(points[13]?.low).toBeCloseTo(mean - 2.66 * step, 9)
  expect(points[0]?.high).toBeCloseTo(mean + 2.66 * step, 9)
  expect(judgement.findings).toEqual([])
})

it("finds the month that lies outside", () => {
  expect(judged([...published, 50]).judgement.findings).toEqual([
    { kind: "outside", side: "below", places: [14] },
  ])
})

it("judges no mean of four people", () => {
  expect(judged(published, 4).judgement).toMatchObject({ ok: false, reason: "too-few-months" })
})
