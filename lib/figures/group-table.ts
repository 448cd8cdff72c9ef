import { count, percent, percentInterval, points } from "../speech/format"
import { fewestForPoint, type Division, type GroupFigure } from "./group-figures"
import { fewestForRate } from "./measure-figure"

/** The figures of one division as a table: counts, rate and interval, and how far a group lies from everybody else. */
export function groupTable(division: Division, month: string) {
  return {
    caption: `${division.title}, ${month}`,
    columns: [
      division.title,
      "Met",
      "Counted",
      "Rate",
      "95% interval",
      "Points from everybody else",
      "95% interval of the points",
    ],
    rows: division.groups.map((group) => [group.name, ...cells(group)]),
  }
}

function cells({ rate, difference }: GroupFigure): string[] {
  if (rate === null) return ["not shown", "not shown", "", "", "", ""]
  const { met, total } = rate
  const counts = [count(met), count(total)]
  if (rate.rate === null || rate.interval === null || total < fewestForRate)
    return [...counts, "", "", "", ""]
  const isPoint = total >= fewestForPoint
  return [
    ...counts,
    isPoint ? percent(rate.rate) : "",
    percentInterval(rate.interval),
    ...(difference === null
      ? ["", ""]
      : [
          isPoint ? points(difference.difference) : "",
          `${points(difference.low)} to ${points(difference.high)}`,
        ]),
  ]
}
