import { count, milligrams } from "../_ui/format"
import { HistoryChart } from "../_ui/history-chart"
import { dietFinding, dietPoints, type DietSeries } from "./diet-figure"
import { dietLimits } from "./diet-words"
import { dietTable } from "./measure-table"

/** The mean of one series over the months, with the lines of the limits; nothing while it has no record. */
export function DietChart(props: { series: DietSeries; chosen: number; size: "tall" | "full" }) {
  const { series } = props
  if (series.points.every((point) => point.meanMg === null)) return null
  return (
    <HistoryChart
      points={dietPoints(series)}
      chosen={props.chosen}
      chosenLabel={series.now.meanMg === null ? "" : milligrams(series.now.meanMg)}
      baseline={
        series.baselineMg === null ? null : { value: series.baselineMg, label: milligrams(series.baselineMg) }
      }
      limits={dietLimits}
      least={400}
      floor={0}
      size={props.size}
      tick={props.size === "full" ? count : undefined}
      finding={dietFinding(series)}
      figures={dietTable(series)}
    />
  )
}
