import Link from "next/link"
import { fewestForRate, type MeasureFigure } from "../../lib/figures/measure-figure"
import type { MonthToday } from "../../lib/questions/months-today"
import { count, percent } from "../../lib/speech/format"
import { rateOf } from "../../lib/statistics/rate"
import { measureHref } from "./measures/search-params"

/** Under a measure of a closed month: what it would be today, when that differs; it leads to the people who moved. */
export function WouldBeToday(props: {
  figure: MeasureFigure
  month: string | null
  today: MonthToday | undefined
}) {
  const words = wouldBeWords(props.figure, props.today)
  if (words === null) return null
  return (
    <p>
      <Link href={`${measureHref(props.figure.measure.id, { month: props.month })}#closed`} prefetch={false}>
        {words}
      </Link>
    </p>
  )
}

/** Where few are counted, the count of people stands in place of a rate; null where nothing differs. */
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
