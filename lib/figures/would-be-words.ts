import type { MonthToday } from "../questions/months-today"
import { count, percent } from "../speech/format"
import { rateOf } from "../statistics/rate"
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
