import type { MonthToday } from "../questions/months-today"
import type { DietMonth } from "../questions/diet-months"
import { count, counted, milligrams, percent } from "../speech/format"
import { rateOf } from "../statistics/rate"
import type { DietSeries } from "./diet-figure"
import { fewestForRate, type MeasureFigure } from "./measure-figure"

/**
 * What a measure of a closed month would be by what is known today: "Would be 41% today (570 of 1,391)". Where few are
 * counted, the counts stand in place of a rate; null where nothing differs.
 */
export function wouldBeWords(figure: MeasureFigure, today: MonthToday | undefined): string | null {
  if (!today) return null
  const { met, unknown, exception, excluded, population, not_met: notMet } = today
  const counts = { met, unknown, exception, excluded, population, notMet }
  const then = figure.counts
  const isSame =
    then.met === met && then.notMet === notMet && then.unknown === unknown && then.exception === exception
  if (isSame) return null
  const { rate, total } = rateOf(counts, figure.measure.direction)
  if (rate === null) return "No one would be counted today"
  return total < fewestForRate
    ? `Would be ${count(met)} of ${count(total)} today`
    : `Would be ${percent(rate)} today (${count(met)} of ${count(total)})`
}

/** What the mean of a series of a closed month would be by what is known today; null where nothing differs. */
export function wouldBeMeanWords(series: DietSeries, today: readonly DietMonth[]): string | null {
  const row = today.find((one) => one.series === series.name)
  const { n, meanMg } = series.now
  if (n === (row?.n ?? 0) && meanMg === (row?.mean_mg ?? null)) return null
  if (!row) return "Would be of no one today"
  return `Would be ${milligrams(row.mean_mg)} today (${counted(row.n, "person", "people")})`
}
