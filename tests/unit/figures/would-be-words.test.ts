import { expect, test } from "vitest"
import { dietFigure } from "../../../lib/figures/diet-figure"
import { wouldBeMeanWords } from "../../../lib/figures/would-be-words"

const asOf = "2026-01-31"
const month = {
  ...{ as_of: asOf, series: "counted days", n: 2, mean_mg: 2500.5, sd_mg: 700 },
  ...{ paired_n: 0, paired_change_mg: null, paired_sd_mg: null },
}
const { headline } = dietFigure([month], [asOf], asOf)

test("says what the mean of a closed month would be today, of how many people", () => {
  expect(wouldBeMeanWords(headline, [{ ...month, n: 1, mean_mg: 3001 }])).toBe(
    "Would be 3,001\u00a0mg today (1\u00a0person)",
  )
  expect(wouldBeMeanWords(headline, [])).toBe("Would be of no one today")
})

test("says nothing where the mean is the same, or nobody brought records then and now", () => {
  const nobody = dietFigure([], [asOf], asOf).headline

  expect(wouldBeMeanWords(headline, [month])).toBeNull()
  expect(wouldBeMeanWords(nobody, [{ ...month, series: "food frequency" }])).toBeNull()
  expect(wouldBeMeanWords(nobody, [month])).toBe("Would be 2,501\u00a0mg today (2\u00a0people)")
})
