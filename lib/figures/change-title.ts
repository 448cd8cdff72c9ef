import { sinceMonth } from "../speech/change-words"
import { count, pointsSize } from "../speech/format"
import { fewestForRate, type MeasureFigure } from "./measure-figure"

/** "Up 1.4 points since September"; where people are few, the two counts then and now. */
export function changeTitle(figure: MeasureFigure): string {
  const { rate, earlier } = figure
  if (!earlier || rate.rate === null || earlier.rate.rate === null) return "Nothing to compare with"
  const month = sinceMonth(earlier.asOf, figure.months[figure.chosen]?.asOf ?? earlier.asOf)
  if (rate.total < fewestForRate || earlier.rate.total < fewestForRate) {
    const then = `${count(earlier.rate.met)} of ${count(earlier.rate.total)}`
    const now = `${count(rate.met)} of ${count(rate.total)}`
    return then === now ? `${now}, as in ${month}` : `${now}, from ${then} in ${month}`
  }
  const difference = rate.rate - earlier.rate.rate
  const size = pointsSize(difference)
  if (size.startsWith("0.0")) return `Unchanged since ${month}`
  return `${difference > 0 ? "Up" : "Down"} ${size} since ${month}`
}
