import Link from "next/link"
import type { MeasureFigure } from "../../lib/figures/measure-figure"
import { wouldBeWords } from "../../lib/figures/would-be-words"
import type { MonthToday } from "../../lib/questions/months-today"
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
