import { listed, month } from "../speech/format"
import type { Rate } from "../statistics/rate"
import type { MeasureFigure } from "./measure-figure"

/**
 * Said beside a change where a rate is the one kept at a closing and does not come out again (an erasure, other definitions):
 * the parts are of the people as they are computed now. Null where both are of the same people, and the parts sum.
 */
export function keptRateWords(figure: MeasureFigure): string | null {
  const { change, earlier, rate } = figure
  const later = figure.months[figure.chosen]
  if (!change || !earlier || !later) return null
  const { earlierMet, earlierTotal, laterMet, laterTotal } = change.counts
  const kept = [
    ...(isOf(earlier.rate, { met: earlierMet, total: earlierTotal }) ? [] : [earlier]),
    ...(isOf(rate, { met: laterMet, total: laterTotal }) ? [] : [later]),
  ]
  if (kept.length === 0) return null
  const names = listed(kept.map(({ asOf }) => month(asOf)))
  const rates = kept.length === 1 ? "rate is as" : "rates are as"
  return `The ${names} ${rates} kept at the closing, the people are as computed now: the parts need not sum to the change.`
}

function isOf(rate: Rate, people: { met: number; total: number }): boolean {
  return rate.met === people.met && rate.total === people.total
}
