import type { ChosenBaseline } from "../domain/chart-marks"
import { xmrLimits } from "../statistics/xmr-limits"
import { baselineMonths, isComplete, placeBaseline, type Baseline } from "./baseline"
import { fewestForMean, type DietSeries } from "./diet-figure"
import { judgeSeries, type Judgement, type SignalPoint } from "./signals"

/** The means of one diet series as they are judged: each month has records of its own, so no month shares one. */
export type DietSignals = { points: SignalPoint[]; chosen: number; baseline: Baseline; judgement: Judgement }

export function dietSignals(options: {
  series: DietSeries
  chosen: number
  chosenBaseline: ChosenBaseline | null
}): DietSignals {
  const { series, chosen } = options
  const asOfs = series.points.map((point) => point.asOf)
  const baseline = placeBaseline(asOfs, options.chosenBaseline)
  const isUsable = series.points.map(
    ({ asOf, n, meanMg }, place) =>
      place >= baseline.from && place <= chosen && isComplete(asOf) && meanMg !== null && n >= fewestForMean,
  )
  const values = series.points.map(({ meanMg }, place) => (isUsable[place] ? meanMg : null))
  const limits = xmrLimits(values.slice(baseline.from), baselineMonths)
  const points = series.points.map(({ asOf, n, meanMg }, place): SignalPoint => {
    const isWithin = limits.ok && place >= baseline.from && place <= chosen
    const isJudged = isWithin && isUsable[place] === true
    const outside = limits.ok ? (limits.points[place - baseline.from]?.outside ?? null) : null
    return {
      ...{ asOf, value: meanMg, people: n, isJudged },
      low: isWithin ? limits.low : null,
      high: isWithin ? limits.high : null,
      outside: isJudged ? outside : null,
    }
  })
  const judgement: Judgement =
    limits.ok || limits.reason === "too-few-points"
      ? judgeSeries(points, baseline)
      : { ok: false, reason: "no-spread", median: null, findings: [] }
  return { points, chosen, baseline, judgement }
}
