import { count, listed, monthName, percent, sentenceCase } from "../speech/format"
import type { DietFigure } from "./diet-figure"
import { fewestForRate } from "./measure-figure"

const yearBack = 12

/** Which shift in the share of a series is said in words, in points. */
const shiftWorthWords = 0.1

/**
 * How many people answered in each way this month, and whether that has shifted within a year; of fewer than 20 people the
 * counts alone, since one person more would be a shift. Empty without a record.
 */
export function dietShares(figure: DietFigure): string {
  if (figure.people === 0) return ""
  const share = (n: number) => (figure.people < fewestForRate ? "" : ` (${percent(n / figure.people)})`)
  const shares = figure.series
    .filter((series) => series.now.n > 0)
    .map((series) => `${series.name} ${count(series.now.n)}${share(series.now.n)}`)
  return `${sentenceCase(listed(shares))}. ${shiftWords(figure)}`.trimEnd()
}

function shiftWords(figure: DietFigure): string {
  const then = figure.chosen - yearBack
  const peopleThen = figure.series.reduce((sum, series) => sum + (series.points[then]?.n ?? 0), 0)
  if (Math.min(peopleThen, figure.people) < fewestForRate) return ""
  const shifted = figure.series
    .map((series) => ({
      name: series.name,
      before: (series.points[then]?.n ?? 0) / peopleThen,
      now: series.now.n / figure.people,
    }))
    .filter(({ before, now }) => Math.abs(now - before) >= shiftWorthWords)
  if (shifted.length === 0) return "Much the same shares as a year before."
  const asOf = figure.headline.points[then]?.asOf ?? ""
  const words = shifted.map(({ name, before, now }) => `${name} from ${percent(before)} to ${percent(now)}`)
  return `The ways of asking have shifted since ${monthName(asOf)} a year before: ${listed(words)}.`
}
