import { changeTitle } from "../../figures/change-title"
import type { InMonthFigure } from "../../figures/in-month-figure"
import { fewestForRate, rateLabel, type MeasureFigure } from "../../figures/measure-figure"
import type { PlacedNote } from "../../figures/note-places"
import { signalSentence } from "../../figures/signal-words"
import { inMonthName } from "../../speech/fact-words"
import { count, percent } from "../../speech/format"
import type { Chart } from "./chart"

const tickOfRate = (share: number) => `${count(share * 100)}%`

/** The rolling series. Where few people are counted, columns count them: a line between shares of a few would be all jags. */
export function rollingChart(figure: MeasureFigure, notes: readonly PlacedNote[]): Chart {
  return figure.rate.total < fewestForRate ? countChart(figure, notes) : rateChart(figure, notes)
}

/** The series of the facts of each month alone, on which signals are judged; null where nothing is judged. */
export function inMonthChart(figure: InMonthFigure, notes: readonly PlacedNote[]): Chart | null {
  const { judgement, points, rates, chosen, baseline, measure } = figure
  const now = rates[chosen]
  if (!judgement.ok || !now) return null
  const title = inMonthName(measure.fact)
  return {
    title,
    points: points.map(({ asOf, value }) => ({ asOf, value, low: null, high: null })),
    alt: `${measure.name}, ${title.toLowerCase()}. ${signalSentence(figure, measure.direction)}`,
    endLabel: rateLabel(now),
    baseline: {
      ...{ value: judgement.median, label: `median ${percent(judgement.median)}`, from: baseline.from },
    },
    bounds: points,
    notes: drawnNotes(notes),
    ...{ limits: [], least: 0.1, ceiling: 1, tick: tickOfRate, drawn: "dots" },
  }
}

export function drawnNotes(notes: readonly PlacedNote[]): Chart["notes"] {
  return notes.flatMap(({ number, along }) => (along === null ? [] : [{ number, along }]))
}

function countChart(figure: MeasureFigure, notes: readonly PlacedNote[]): Chart {
  const { months, rate, measure } = figure
  return {
    title: "At the end of each month, people",
    points: months.map((month) => ({
      ...{ asOf: month.asOf, value: month.rate.rate === null ? null : month.rate.met, low: null, high: null },
    })),
    alt: `${measure.name}, people month by month: ${rateLabel(rate)} at the end. ${changeTitle(figure)}.`,
    ...{ endLabel: rateLabel(rate), notes: drawnNotes(notes), bounds: [] },
    ...{ baseline: null, limits: [], least: 4, ceiling: null, tick: count, drawn: "columns" },
  }
}

function rateChart(figure: MeasureFigure, notes: readonly PlacedNote[]): Chart {
  const { months, rate, baseline, measure } = figure
  return {
    title: "At the end of each month",
    points: months.map((month) => ({
      asOf: month.asOf,
      value: month.rate.rate,
      low: month.rate.interval?.low ?? null,
      high: month.rate.interval?.high ?? null,
    })),
    alt: `${measure.name}, month by month: ${rateLabel(rate)} at the end. ${changeTitle(figure)}.`,
    endLabel: rateLabel(rate),
    baseline:
      baseline === null ? null : { value: baseline, label: `first year ${percent(baseline)}`, from: 0 },
    ...{ notes: drawnNotes(notes), bounds: [], limits: [], least: 0.1, ceiling: 1 },
    ...{ tick: tickOfRate, drawn: "line" },
  }
}
