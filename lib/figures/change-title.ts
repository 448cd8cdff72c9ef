import { count, monthName, pointsSize } from "../speech/format"
import { fewestForRate, type MeasureFigure } from "./measure-figure"

/** "Up 1.4 points since September"; where people are few, the two counts then and now. */
export function changeTitle(figure: MeasureFigure): string {
  const { rate } = figure
  const before = figure.months[figure.chosen - 1]
  if (!before || rate.rate === null || before.rate.rate === null) return "Nothing to compare with"
  const month = monthName(before.asOf)
  if (rate.total < fewestForRate || before.rate.total < fewestForRate) {
    const then = `${count(before.rate.met)} of ${count(before.rate.total)}`
    const now = `${count(rate.met)} of ${count(rate.total)}`
    return then === now ? `${now}, as in ${month}` : `${now}, from ${then} in ${month}`
  }
  const difference = rate.rate - before.rate.rate
  const size = pointsSize(difference)
  if (size.startsWith("0.0")) return `Unchanged since ${month}`
  return `${difference > 0 ? "Up" : "Down"} ${size} since ${month}`
}
