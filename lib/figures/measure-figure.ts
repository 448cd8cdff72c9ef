import type { ChosenBaseline } from "../domain/chart-marks"
import { count, percent } from "../speech/format"
import type { WordedMeasure } from "../measures/types"
import type { MeasureInMonth } from "../questions/measure-in-month"
import type { MeasureMonth } from "../questions/measure-months"
import { changeCauses, changeKinds, type ChangeCause, type ChangeKind } from "../domain/changes"
import type { StandingChange } from "../questions/standing-changes"
import { measureWords } from "../speech/measure-words"
import { splitChange, type Change, type ChangeCounts } from "../statistics/change"
import { changeCounts } from "../statistics/change-counts"
import { median } from "../statistics/median"
import { rateOf, type Rate, type StandingCounts } from "../statistics/rate"
import { inMonthFigure, type InMonthFigure } from "./in-month-figure"

/** Below this many in the denominator the two counts stand where a percentage would, and the line is of people. */
export const fewestForRate = 20

export type FigureMonth = { asOf: string; counts: StandingCounts; rate: Rate }

/** All that a screen says of one measure in one month. */
export type MeasureFigure = {
  measure: WordedMeasure
  counts: StandingCounts
  rate: Rate
  months: FigureMonth[]
  chosen: number
  /** The month the chosen one is compared with. */
  earlier: FigureMonth | null
  baseline: number | null
  change: MeasureChange | null
  /** The series on which signals are judged; null where it was not asked for or the measure has no deciding fact. */
  inMonth: InMonthFigure | null
}

export type MeasureChange = {
  split: Change
  counts: ChangeCounts
  earlierRate: Rate
  /** Each change by its causes, with the people of each. */
  causes: readonly CauseCount[]
}

export type CauseCount = { kind: ChangeKind; cause: ChangeCause; people: number }

const nobody: StandingCounts = { population: 0, excluded: 0, unknown: 0, met: 0, exception: 0, notMet: 0 }

/** Months of the baseline: the first year plotted. */
const baselineMonths = 12

/** Puts one measure's rows together for a month; a day without a row has nobody in it. */
export function measureFigure(options: {
  measure: WordedMeasure
  rows: readonly MeasureMonth[]
  moves: readonly StandingChange[]
  asOfs: readonly string[]
  asOf: string
  inMonth?: { rows: readonly MeasureInMonth[]; chosenBaseline: ChosenBaseline | null }
  /** The day of the month to compare with, that of the moves; the month before when it is not said. */
  earlierAsOf?: string | null
}): MeasureFigure {
  const { measure, asOfs, asOf } = options
  const byDay = new Map(
    options.rows.filter((row) => row.measure_id === measure.id).map((row) => [row.as_of, countsOf(row)]),
  )
  const months = asOfs.map((day) => {
    const counts = byDay.get(day) ?? nobody
    return { asOf: day, counts, rate: rateOf(counts, measure.direction) }
  })
  const chosen = asOfs.indexOf(asOf)
  const counts = months[chosen]?.counts ?? nobody
  const earlier = months.find((month) => month.asOf === options.earlierAsOf) ?? months[chosen - 1] ?? null
  return {
    measure,
    counts,
    rate: rateOf(counts, measure.direction),
    months,
    chosen,
    earlier,
    baseline: median(months.slice(0, baselineMonths).map((month) => month.rate.rate)),
    change: earlier ? measureChange(measure, options.moves, earlier.rate) : null,
    inMonth: options.inMonth ? inMonthFigure({ measure, asOfs, asOf, ...options.inMonth }) : null,
  }
}

/** The measure's sentence as it fits its counts. */
export function headlineOf(figure: MeasureFigure): string {
  const { headline, nobody: none } = measureWords(figure.measure)
  return none && figure.counts[none.when] === 0 ? none.says : headline
}

/** The rate as it is written at the line: a percentage, or the two counts where people are few. */
export function rateLabel(rate: Rate): string {
  if (rate.rate === null) return "no one"
  return rate.total < fewestForRate ? `${count(rate.met)} of ${count(rate.total)}` : percent(rate.rate)
}

function measureChange(
  measure: WordedMeasure,
  moves: readonly StandingChange[],
  earlierRate: Rate,
): MeasureChange {
  const own = moves.filter((move) => move.measure_id === measure.id)
  const counts = changeCounts(own, measure.direction)
  return {
    split: splitChange(counts),
    counts,
    earlierRate,
    causes: causesOf(own),
  }
}

function causesOf(moves: readonly StandingChange[]): CauseCount[] {
  return changeKinds.flatMap((kind) =>
    changeCauses
      .map((cause) => ({
        kind,
        cause,
        people: sumOf(moves.filter((move) => move.change === kind && move.cause === cause)),
      }))
      .filter(({ people }) => people > 0),
  )
}

function sumOf(moves: readonly StandingChange[]): number {
  return moves.reduce((sum, move) => sum + move.people, 0)
}

function countsOf(row: MeasureMonth): StandingCounts {
  const { population, excluded, unknown, met, exception, not_met: notMet } = row
  return { population, excluded, unknown, met, exception, notMet }
}
