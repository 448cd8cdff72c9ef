import {
  count,
  milligramInterval,
  milligrams,
  monthShort,
  percent,
  percentInterval,
  sentenceCase,
} from "../../lib/speech/format"
import type { FiguresTable } from "../_ui/figures"
import type { DietSeries } from "../../lib/figures/diet-figure"
import type { InMonthFigure } from "../../lib/figures/in-month-figure"
import { judgedWords } from "../../lib/figures/signal-words"
import type { MeasureFigure } from "../../lib/figures/measure-figure"
import { inMonthName } from "../../lib/speech/fact-words"
import { measureWords } from "../../lib/speech/measure-words"

/** The rates of a measure as a table, latest month first. */
export function rateTable(figure: MeasureFigure): FiguresTable {
  const isUp = figure.measure.direction === "up"
  return {
    caption: `${figure.measure.name}, rate by month`,
    columns: ["Month", "Rate", "95% interval", isUp ? "Met" : "Present", "Of"],
    rows: figure.months
      .toReversed()
      .map(({ asOf, rate }) => [
        monthShort(asOf),
        rate.rate === null ? "none" : percent(rate.rate),
        rate.interval === null ? "none" : percentInterval(rate.interval),
        count(rate.met),
        count(rate.total),
      ]),
  }
}

/** The readings of each month by themselves, latest first, with the limits and what was judged. */
export function inMonthTable(figure: InMonthFigure): FiguresTable {
  const isUp = figure.measure.direction === "up"
  return {
    caption: `${figure.measure.name}, ${inMonthName(figure.measure.fact).toLowerCase()}`,
    columns: ["Month", "Rate", isUp ? "Met" : "Present", "Of", "Limits", "Judged"],
    rows: figure.points
      .map((point, place) => [
        monthShort(point.asOf),
        point.value === null ? "none" : percent(point.value),
        count(figure.rates[place]?.met ?? 0),
        count(point.people),
        point.low === null || point.high === null
          ? "none"
          : percentInterval({ low: point.low, high: point.high }),
        judgedWords(point),
      ])
      .toReversed(),
  }
}

/** The counts of every standing by monthShort, latest first; they add up to the population. */
export function standingTable(figure: MeasureFigure): FiguresTable {
  const speech = measureWords(figure.measure)
  return {
    caption: `${figure.measure.name}, people by standing and month`,
    columns: [
      "Month",
      "Population",
      "Excluded",
      sentenceCase(speech.unknown),
      sentenceCase(speech.met),
      sentenceCase(speech.exception),
      sentenceCase(speech.notMet),
      "Rate",
      "95% interval",
    ],
    rows: figure.months
      .toReversed()
      .map(({ asOf, counts, rate }) => [
        monthShort(asOf),
        ...[
          counts.population,
          counts.excluded,
          counts.unknown,
          counts.met,
          counts.exception,
          counts.notMet,
        ].map(count),
        rate.rate === null ? "none" : percent(rate.rate),
        rate.interval === null ? "none" : percentInterval(rate.interval),
      ]),
  }
}

/** The means of one diet series by monthShort, latest first. */
export function dietTable(series: DietSeries): FiguresTable {
  return {
    caption: `Mean daily sodium, ${series.name}, by month`,
    columns: ["Month", "Mean", "95% interval, mg", "People"],
    rows: series.points
      .toReversed()
      .map(({ asOf, n, meanMg, interval }) => [
        monthShort(asOf),
        meanMg === null ? "none" : milligrams(meanMg),
        interval === null ? "none" : milligramInterval(interval),
        count(n),
      ]),
  }
}
