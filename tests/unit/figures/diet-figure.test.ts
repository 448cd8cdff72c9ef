import { expect, test } from "vitest"
import {
  dietFigure,
  dietFinding,
  drawnPoints,
  pairedTitle,
  pairedWords,
} from "../../../lib/figures/diet-figure"

const plain = (words: string) => words.replaceAll("\u00a0", " ")

test("says how much less, with the nearer end first", () => {
  const paired = { n: 143, changeMg: -260, interval: { low: -350, high: -170 } }

  expect(pairedTitle(paired)).toBe("Falling in the same people")
  expect(plain(pairedWords(paired))).toBe("260 mg less (170 to 350)")
})

test("claims nothing where the interval holds no change", () => {
  const paired = { n: 5, changeMg: -200, interval: { low: -425, high: 25 } }

  expect(pairedTitle(paired)).toBe("No clear change in the same people")
  expect(pairedTitle({ ...paired, n: 4 })).toBe("Too few of the same people to tell")
  expect(pairedTitle({ n: 4, changeMg: -200, interval: { low: -300, high: -100 } })).toBe(
    "Too few of the same people to tell",
  )
  expect(plain(pairedWords(paired))).toBe("200 mg less (425 less to 25 more)")
})

// n 4, mean -200, sd sqrt(20000): t is 3.182 at 3 degrees of freedom in the NIST/SEMATECH e-Handbook
test("gives the paired change its interval, and a series without records none", () => {
  const row = {
    as_of: "2026-10-31",
    series: "counted days",
    n: 4,
    mean_mg: 3400,
    sd_mg: 100,
    paired_n: 4,
    paired_change_mg: -200,
    paired_sd_mg: Math.sqrt(20000),
  }

  const figure = dietFigure([row], ["2026-09-30", "2026-10-31"], "2026-10-31")

  expect(figure.headline.paired?.interval?.low).toBeCloseTo(-425, 0)
  expect(figure.headline.points.map((point) => point.n)).toEqual([0, 4])
  expect(figure.series.find((one) => one.name === "food frequency")?.paired).toBeNull()
})

// That a mean of fewer than five is not drawn: common practice, no source.
test("draws the mean of five people and not of four, whose number stands with it", () => {
  const paired = { paired_n: 0, paired_change_mg: null, paired_sd_mg: null }
  const months = [
    { as_of: "2026-09-30", series: "counted days", n: 5, mean_mg: 3400, sd_mg: 0, ...paired },
    { as_of: "2026-10-31", series: "counted days", n: 4, mean_mg: 3100, sd_mg: 3000, ...paired },
  ]

  const { headline } = dietFigure(months, ["2026-09-30", "2026-10-31"], "2026-10-31")

  expect(drawnPoints(headline).map((point) => point.meanMg)).toEqual([3400, null])
  expect(plain(dietFinding(headline))).toBe(
    "Mean daily sodium, counted days: 3,400 mg in Sep 2026, 3,100 mg of 4 people in Oct 2026.",
  )
})
