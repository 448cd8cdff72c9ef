import { expect, it } from "vitest"
import { dietFigure } from "../../../lib/figures/diet-figure"
import { sodiumAnswer } from "../../../lib/figures/sodium-answer"
import { sodiumChangeWords, sodiumMeanWords } from "../../../lib/figures/sodium-mean-words"
import { shareWords } from "../../../lib/figures/sodium-share-words"

const asOf = "2026-10-31"
const plain = (words: string) => words.replaceAll("\u00a0", " ")

function answerOf(series: string, n: number, change: number | null, sd: number | null): string {
  const row = { as_of: asOf, series, n: 40, mean_mg: 2400, sd_mg: 500 }
  const paired = { paired_n: n, paired_change_mg: change, paired_sd_mg: sd }
  return plain(sodiumAnswer(dietFigure([{ ...row, ...paired }], [asOf], asOf)))
}

// Half an interval is t x sd / sqrt(n); t of 24 degrees is 2.064 (Student's table): 200 / 5 x 2.064 = 82.6.
it("says that sodium is falling where the whole interval lies below none", () => {
  expect(answerOf("counted days", 25, -300, 200)).toBe(
    "Falling in the same people: 25 people with counted days this month and 3 to 15 months before, 300 mg less (217 to 383) a day on average.",
  )
})

it("says neither where the interval lies on both sides", () => {
  expect(answerOf("counted days", 25, -50, 200)).toMatch(
    /^No clear change in the same people: .*133 less to 33 more/,
  )
})

it("takes the next series where the headline has no pairs, and names it", () => {
  expect(answerOf("24-hour urine", 25, 300, 200)).toMatch(
    /^Rising in the same people: 25 people with 24-hour urine/,
  )
})

it("tells of too few, and of nobody", () => {
  expect(answerOf("counted days", 4, -300, 200)).toBe(
    "Too few of the same people to tell: 4 people with counted days this month and 3 to 15 months before.",
  )
  expect(answerOf("counted days", 0, null, null)).toBe(
    "No one with counted days in October 2026 has an earlier record to compare with.",
  )
})

// 81 of 263 is 0.2553 to 0.3662 (Newcombe 1998, table I, method 3).
it("gives a share with its counts and interval, of few people the counts alone", () => {
  expect(shareWords(81, 263)).toBe("81 of 263, 31% (26 to 37)")
  expect(shareWords(5, 25)).toMatch(/^5 of 25 \(\d+ to \d+%\)$/)
  expect(shareWords(5, 19)).toBe("5 of 19")
  expect(shareWords(0, 0)).toBe("0 of 0")
})

it("gives a mean or change of fewer than five without an interval", () => {
  expect(plain(sodiumMeanWords({ n: 4, mean: 2400, sd: 100 }))).toBe("2,400 mg")
  expect(plain(sodiumMeanWords({ n: 25, mean: 2400, sd: 200 }))).toBe("2,400 mg (2,317 to 2,483)")
  expect(sodiumMeanWords({ n: 0, mean: null, sd: null })).toBe("")
  expect(sodiumChangeWords({ n: 4, mean: -100, sd: 50 })).toBe("few people")
})
