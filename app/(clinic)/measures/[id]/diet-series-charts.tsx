import { count, counted, milligramInterval, milligrams, sentenceCase } from "../../../_ui/format"
import { HistoryChart } from "../../../_ui/history-chart"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import {
  dietFinding,
  dietPoints,
  pairedTitle,
  pairedWords,
  type DietFigure,
  type DietSeries,
} from "../../diet-figure"
import { dietTable } from "../../measure-table"
import styles from "./diet-series-charts.module.css"

/** The series side by side, never on one line: each with its own people. */
export function DietSeriesCharts({ figure }: { figure: DietFigure }) {
  return (
    <div className={styles.series}>
      {figure.series.map((series) => (
        <OneSeries key={series.name} series={series} chosen={figure.chosen} />
      ))}
    </div>
  )
}

function OneSeries({ series, chosen }: { series: DietSeries; chosen: number }) {
  const { now, paired } = series
  return (
    <article>
      <h3>{sentenceCase(series.name)}</h3>
      <p className="soft">
        {now.meanMg === null
          ? "No record this month."
          : `${milligrams(now.meanMg)}${now.interval ? ` (${milligramInterval(now.interval)})` : ""}, ${counted(now.n, "person", "people")}.`}{" "}
        {paired
          ? `${pairedTitle(paired)}: ${counted(paired.n, "person", "people")}, ${pairedWords(paired)}.`
          : null}
      </p>
      {series.points.every((point) => point.meanMg === null) ? null : (
        <HistoryChart
          points={dietPoints(series)}
          chosen={chosen}
          chosenLabel={now.meanMg === null ? "" : milligrams(now.meanMg)}
          baseline={
            series.baselineMg === null
              ? null
              : { value: series.baselineMg, label: milligrams(series.baselineMg) }
          }
          limits={dietSodium.limits.map((limit) => ({ value: limit.mg, label: count(limit.mg) }))}
          least={400}
          floor={0}
          size="tall"
          finding={dietFinding(series)}
          figures={dietTable(series)}
        />
      )}
    </article>
  )
}
