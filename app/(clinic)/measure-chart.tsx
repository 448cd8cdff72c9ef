import { count, monthShort, percent, percentInterval } from "../../lib/speech/format"
import { HistoryChart, type ChartSize } from "../_ui/history-chart"
import { fewestForRate, rateLabel, type MeasureFigure } from "../../lib/figures/measure-figure"
import type { PlacedNote } from "../../lib/figures/note-places"
import { rateTable } from "./measure-table"
import { inMonthSeries } from "../../lib/speech/fact-words"
import { measureWords } from "../../lib/speech/measure-words"
import { SignalPhrase } from "./signal-phrase"

/**
 * The line of a measure over the months: its rate with the interval, or, where few are counted, the people themselves,
 * since a rate of few is all jags. In short it stands without its foot, and whoever shows it adds the figures.
 */
export function MeasureChart(props: {
  figure: MeasureFigure
  size: ChartSize
  notes?: readonly PlacedNote[]
}) {
  const { inMonth, measure } = props.figure
  return (
    <>
      <RateChart {...props} />
      {props.size === "full" || inMonth === null ? null : (
        <SignalPhrase judged={inMonth} series={inMonthSeries(measure.fact)} />
      )}
    </>
  )
}

function RateChart({
  figure,
  size,
  notes,
}: {
  figure: MeasureFigure
  size: ChartSize
  notes?: readonly PlacedNote[]
}) {
  if (figure.months.every((month) => month.rate.rate === null)) return null
  const figures = size === "short" ? undefined : rateTable(figure)
  const shared = { chosen: figure.chosen, size, figures, notes }
  if (isFew(figure)) {
    return (
      <HistoryChart
        {...shared}
        points={figure.months.map(({ asOf, rate }) => ({
          label: monthShort(asOf),
          value: rate.met,
          low: null,
          high: null,
        }))}
        chosenLabel={rateLabel(figure.rate)}
        baseline={null}
        drawn="columns"
        least={4}
        floor={0}
        tick={size === "full" ? count : undefined}
        finding={countFinding(figure)}
      />
    )
  }
  const { baseline } = figure
  return (
    <HistoryChart
      {...shared}
      points={figure.months.map(({ asOf, rate }) => ({
        label: monthShort(asOf),
        value: rate.rate,
        low: rate.interval?.low ?? null,
        high: rate.interval?.high ?? null,
      }))}
      chosenLabel={rateLabel(figure.rate)}
      baseline={baseline === null ? null : { value: baseline, label: percent(baseline) }}
      least={0.1}
      floor={0}
      ceiling={1}
      tick={size === "full" ? percent : undefined}
      finding={rateFinding(figure)}
    />
  )
}

/** Whether so few are counted that the line is drawn in people. */
export function isFew(figure: MeasureFigure): boolean {
  return figure.rate.total < fewestForRate
}

/** The finding of the line in words, for whoever does not see it. */
function rateFinding(figure: MeasureFigure): string {
  const { measure, months, chosen, baseline } = figure
  const first = months.find((month) => month.rate.rate !== null)
  const now = months[chosen]
  if (!first || !now || now.rate.rate === null) return `${measure.name}: no one to count.`
  const interval = now.rate.interval ? `, 95% interval ${percentInterval(now.rate.interval)}` : ""
  const middle = baseline === null ? "" : ` Median of the first year ${percent(baseline)}.`
  return `${measure.name}: ${rateLabel(first.rate)} in ${monthShort(first.asOf)}, ${rateLabel(now.rate)} in ${monthShort(now.asOf)}${interval}.${middle}`
}

function countFinding(figure: MeasureFigure): string {
  const { measure, months, chosen } = figure
  const people = months.map(({ rate }) => rate.met)
  const range = `${count(Math.min(...people))} to ${count(Math.max(...people))} people ${measureWords(measure).met}`
  return `${measure.name}: ${range} over the months, ${rateLabel(figure.rate)} in ${monthShort(months[chosen]?.asOf ?? "")}.`
}
