import { fewestPoints } from "./fewest-points"

/** How many of those counted in a month met; total 0 is a month without a point. */
export type CountedPoint = { met: number; total: number }

export type PointLimits = {
  low: number
  high: number
  outside: "above" | "below" | null
  isThin: boolean
}

export type Limits =
  | { ok: true; centre: number; baselinePoints: number; sigmaZ: number; points: (PointLimits | null)[] }
  | { ok: false; reason: "too-few-points" | "no-spread"; baselinePoints: number }

export type LimitsQuestion = { points: readonly CountedPoint[]; baseline: number }

const fewestEachWay = 5 // common practice: below it the normal limits of a share do not hold

/**
 * Limits of a p chart: how far the share of a month lies from the baseline's when only chance is at work.
 *
 * Shape: counted points in order of time and how many of the first of them are the baseline, which stays as it is
 * when later points come; every point gets its limits, in 0..1, with its own total. A point is thin when fewer than
 * 5 are expected to meet or not to meet; a thin point is never outside. sigmaZ is 1 by construction.
 * Absent: null for a point without a total. No limits with fewer than 10 points in the baseline, or when all or
 * nobody met in it.
 * Throws: RangeError when the baseline or a count is not a whole number that fits.
 * Source: Montgomery DC, Introduction to Statistical Quality Control, chapter on attributes charts (from memory):
 * p +- 3 sqrt(p (1 - p) / n).
 * Example: a baseline with 1,847 of 2,957 gives a month of 198 the limits 0.5214 to 0.7279.
 */
export function pLimits(question: LimitsQuestion): Limits {
  return limitsWith(question, () => 1)
}

/** The limits with their width times a sigma that is judged from the distances of the baseline's points. */
export function limitsWith(
  { points, baseline }: LimitsQuestion,
  sigmaOf: (distances: number[]) => number,
): Limits {
  refuseBadCounts(points, baseline)
  const start = points.slice(0, baseline).filter(({ total }) => total > 0)
  const baselinePoints = start.length
  if (baselinePoints < fewestPoints) return { ok: false, reason: "too-few-points", baselinePoints }
  const met = start.reduce((sum, point) => sum + point.met, 0)
  const total = start.reduce((sum, point) => sum + point.total, 0)
  if (met === 0 || met === total) return { ok: false, reason: "no-spread", baselinePoints }
  const centre = met / total
  const spreadOf = (people: number) => Math.sqrt((centre * (1 - centre)) / people)
  const sigmaZ = sigmaOf(start.map((point) => (point.met / point.total - centre) / spreadOf(point.total)))
  const limitsOf = (point: CountedPoint): PointLimits | null => {
    if (point.total === 0) return null
    const half = 3 * sigmaZ * spreadOf(point.total)
    const low = Math.max(0, centre - half)
    const high = Math.min(1, centre + half)
    const isThin = point.total * Math.min(centre, 1 - centre) < fewestEachWay
    const share = point.met / point.total
    const outside = isThin ? null : share > high ? "above" : share < low ? "below" : null
    return { low, high, outside, isThin }
  }
  return { ok: true, centre, baselinePoints, sigmaZ, points: points.map(limitsOf) }
}

function refuseBadCounts(points: readonly CountedPoint[], baseline: number): void {
  const areCounts = points.every(
    ({ met, total }) => Number.isInteger(met) && Number.isInteger(total) && met >= 0 && met <= total,
  )
  if (!areCounts) throw new RangeError("limits require whole counts with 0 <= met <= total")
  if (!Number.isInteger(baseline) || baseline < 1) {
    throw new RangeError("limits require a baseline of at least one point")
  }
}
