import { count, milligrams, monthShort } from "../../lib/speech/format"
import { Figures } from "../_ui/figures"
import { HistoryChart, type HistoryPoint } from "../_ui/history-chart"
import {
  dietFinding,
  drawnPoints,
  noneDrawn,
  type DietPoint,
  type DietSeries,
} from "../../lib/figures/diet-figure"
import type { DietSignals } from "../../lib/figures/diet-signals"
import type { PlacedNote } from "../../lib/figures/note-places"
import { signalSentence } from "../../lib/figures/signal-words"
import { dietLimits } from "./diet-words"
import { dietTable } from "./measure-table"

const limitsMg = dietLimits.map((limit) => limit.value)
const lowestMg = Math.min(...limitsMg)
const highestMg = Math.max(...limitsMg)

/**
 * The mean of one series over the months, with the lines of the limits; nothing while it has no record. The axis follows
 * the means: the interval of two or three people may be wider than the picture and is cut at its edge.
 */
export function DietChart(props: {
  series: DietSeries
  chosen: number
  size: "tall" | "full"
  signals?: DietSignals
  notes?: readonly PlacedNote[]
}) {
  const { series, signals } = props
  const baselineMg = signals?.judgement.median ?? series.baselineMg
  const points = drawnPoints(series)
  if (series.points.every((point) => point.meanMg === null)) return null
  if (points.every((point) => point.meanMg === null))
    return (
      <>
        <p className="fine soft">{noneDrawn}</p>
        <Figures table={dietTable(series)} />
      </>
    )
  const means = points.flatMap((point) => (point.meanMg === null ? [] : [point.meanMg]))
  return (
    <HistoryChart
      points={historyPoints(points)}
      chosen={props.chosen}
      chosenLabel={series.now.meanMg === null ? "" : milligrams(series.now.meanMg)}
      baseline={
        baselineMg === null
          ? null
          : { value: baselineMg, label: milligrams(baselineMg), from: signals?.baseline.from }
      }
      limits={dietLimits}
      bounds={signals?.judgement.ok ? signals.points : []}
      notes={props.notes}
      least={400}
      floor={Math.min(lowestMg, ...means) * 0.75}
      ceiling={Math.max(highestMg, ...means) * 1.25}
      size={props.size}
      tick={props.size === "full" ? count : undefined}
      finding={signals ? `${dietFinding(series)} ${signalSentence(signals, "down")}` : dietFinding(series)}
      figures={dietTable(series)}
    />
  )
}

function historyPoints(points: readonly DietPoint[]): HistoryPoint[] {
  return points.map((point) => ({
    label: monthShort(point.asOf),
    value: point.meanMg,
    low: point.interval?.low ?? null,
    high: point.interval?.high ?? null,
  }))
}
