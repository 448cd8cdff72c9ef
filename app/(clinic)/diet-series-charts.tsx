import { count, counted, milligramInterval, milligrams, sentenceCase } from "../../lib/speech/format"
import { DietChart } from "./diet-chart"
import { pairedWords, toldInterval, type DietFigure, type DietSeries } from "../../lib/figures/diet-figure"
import styles from "./diet-series-charts.module.css"

/** The series beside the headline one, never on its line: each with its own people. */
export function DietSeriesCharts({ figure }: { figure: DietFigure }) {
  return (
    <div className={styles.series}>
      {figure.series
        .filter((series) => series !== figure.headline)
        .map((series) => (
          <OneSeries key={series.name} series={series} chosen={figure.chosen} />
        ))}
    </div>
  )
}

function OneSeries({ series, chosen }: { series: DietSeries; chosen: number }) {
  const { now, paired } = series
  const interval = toldInterval(now)
  return (
    <article>
      <h3>{sentenceCase(series.name)}</h3>
      <p className="soft">
        {now.meanMg === null
          ? "No record this month."
          : `${milligrams(now.meanMg)}${interval ? ` (${milligramInterval(interval)})` : ""}, ${counted(now.n, "person", "people")}.`}{" "}
        {paired ? `In the same people (${count(paired.n)}) ${pairedWords(paired)}.` : null}
      </p>
      <DietChart series={series} chosen={chosen} size="tall" />
    </article>
  )
}
