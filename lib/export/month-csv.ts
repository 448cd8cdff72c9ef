import type { DietSeries } from "../figures/diet-figure"
import type { FigureMonth, MeasureFigure } from "../figures/measure-figure"
import { reportedMeasures, type MonthReport } from "../figures/month-report"
import { dietSodium } from "../measures/diet-sodium"
import { rateBounds } from "../statistics/rate-bounds"
import { toCsv, type CsvRow } from "./csv"

const columns = [
  "month",
  "as_of",
  "is_running",
  "is_whole_clinic",
  "measure",
  "theme",
  "direction",
  "population",
  "excluded",
  "unknown",
  "met",
  "exception",
  "not_met",
  "denominator",
  "rate",
  "rate_low",
  "rate_high",
  "of_measured",
  "bound_low",
  "bound_high",
  "series",
  "people",
  "mean_mg",
  "mean_low_mg",
  "mean_high_mg",
  "paired_people",
  "paired_change_mg",
  "paired_low_mg",
  "paired_high_mg",
] as const

/** How many columns belong to a rate, and how many to a mean; the others of a row stay empty. */
const rateColumns = 13
const meanColumns = 9

/**
 * Every measure in every month up to the report's own: one row each, and one for each series of the diet;
 * each says whether it speaks of the whole clinic or of the part that whoever asked may see.
 */
export function monthCsv(report: MonthReport): string {
  const rates = reportedMeasures(report).flatMap(({ figure }) =>
    figure.months.map((month) => [...placeOf(report, month.asOf), ...rateCells(figure, month)]),
  )
  const means = report.themes.flatMap((theme) =>
    (theme.diet?.series ?? []).flatMap((series) =>
      series.points.map((point, place) => [...placeOf(report, point.asOf), ...meanCells(series, place)]),
    ),
  )
  return toCsv(columns, [...rates, ...means])
}

function placeOf(report: MonthReport, asOf: string): CsvRow {
  return [asOf.slice(0, 7), asOf, report.isRunning && asOf === report.asOf, report.isWholeClinic]
}

function rateCells({ measure }: MeasureFigure, { counts, rate }: FigureMonth): CsvRow {
  const bounds = rateBounds(counts)
  return [
    ...[measure.id, measure.theme, measure.direction],
    ...[counts.population, counts.excluded, counts.unknown, counts.met, counts.exception, counts.notMet],
    ...[rate.total, rate.rate, rate.interval?.low ?? null, rate.interval?.high ?? null, rate.ofMeasured],
    ...[bounds?.low ?? null, bounds?.high ?? null],
    ...empty(meanColumns),
  ]
}

/** The change in the same people is known for the report's own month, the last of the series. */
function meanCells(series: DietSeries, place: number): CsvRow {
  const point = series.points[place]
  const paired = place === series.points.length - 1 ? series.paired : null
  return [
    ...[dietSodium.id, dietSodium.theme, "down"],
    ...empty(rateColumns),
    ...[series.name, point?.n ?? 0, point?.meanMg ?? null],
    ...[point?.interval?.low ?? null, point?.interval?.high ?? null],
    ...[paired?.n ?? null, paired?.changeMg ?? null],
    ...[paired?.interval?.low ?? null, paired?.interval?.high ?? null],
  ]
}

function empty(cells: number): null[] {
  return Array.from({ length: cells }, () => null)
}
