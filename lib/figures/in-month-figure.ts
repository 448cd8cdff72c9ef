import type { ChosenBaseline } from "../domain/chart-marks"
import type { WordedMeasure } from "../measures/types"
import type { MeasureInMonth } from "../questions/measure-in-month"
import { pPrimeLimits } from "../statistics/p-prime-limits"
import { rateOf, type Rate } from "../statistics/rate"
import { baselineMonths, isComplete, placeBaseline, type Baseline } from "./baseline"
import { judgeSeries, type Judgement, type SignalPoint } from "./signals"

/** The series of one measure in which no month shares a reading with another, and what the rules find in it. */
export type InMonthFigure = {
  measure: WordedMeasure
  rates: Rate[]
  points: SignalPoint[]
  chosen: number
  baseline: Baseline
  /** By how much more the baseline's months vary than chance alone; null without limits. */
  sigmaZ: number | null
  judgement: Judgement
}

/** Puts the readings of each month together and judges them up to a day; null for a measure without a deciding fact. */
export function inMonthFigure(options: {
  measure: WordedMeasure
  rows: readonly MeasureInMonth[]
  asOfs: readonly string[]
  asOf: string
  chosenBaseline: ChosenBaseline | null
}): InMonthFigure | null {
  const { measure, asOfs, asOf } = options
  if (measure.fact === null) return null
  const byDay = new Map(
    options.rows.filter((row) => row.measure_id === measure.id).map((row) => [row.as_of, row]),
  )
  const rates = asOfs.map((day) => rateInMonth(byDay.get(day), measure.direction))
  const chosen = asOfs.indexOf(asOf)
  const baseline = placeBaseline(asOfs, options.chosenBaseline)
  const counted = rates.slice(baseline.from, chosen + 1)
  const limits = pPrimeLimits({ points: counted, baseline: baselineMonths })
  const points = rates.map((rate, place): SignalPoint => {
    const day = asOfs[place] ?? ""
    const limit = limits.ok ? (limits.points[place - baseline.from] ?? null) : null
    const isJudged = limit !== null && !limit.isThin && isComplete(day)
    return {
      asOf: day,
      value: rate.rate,
      people: rate.total,
      low: limit?.low ?? null,
      high: limit?.high ?? null,
      outside: isJudged ? limit.outside : null,
      isJudged,
    }
  })
  const judgement: Judgement =
    limits.ok || limits.reason === "too-few-points"
      ? judgeSeries(points, baseline)
      : { ok: false, reason: "no-spread", median: null, findings: [] }
  return { measure, rates, points, chosen, baseline, sigmaZ: limits.ok ? limits.sigmaZ : null, judgement }
}

function rateInMonth(row: MeasureInMonth | undefined, direction: WordedMeasure["direction"]): Rate {
  const [met, notMet, unknown] = [row?.met ?? 0, row?.not_met ?? 0, row?.unknown ?? 0]
  const nobodyElse = { excluded: 0, exception: 0 }
  return rateOf({ ...nobodyElse, met, notMet, unknown, population: met + notMet + unknown }, direction)
}
