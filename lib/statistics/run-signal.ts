import { binomialProbabilities } from "./binomial"
import { fewestPoints } from "./fewest-points"

export type RunSignal =
  | {
      ok: true
      useful: number
      longestRun: number
      longestAllowed: number
      crossings: number
      fewestCrossings: number
      isShifted: boolean
    }
  | { ok: false; reason: "too-few-points"; useful: number }

/**
 * Whether a series stays on one side of its centre for longer, or crosses it more rarely, than chance would explain.
 *
 * Shape: values in order of time, null for a month without one; the centre in their unit, not computed anew when
 * points are added. Useful points do not lie on the centre; a run goes on over points on it and over gaps.
 * isShifted: the longest run is above round(log2 n) + 3, or the crossings are below the 5th percentile of the
 * binomial distribution of n - 1 trials at one half.
 * Absent: with fewer than 10 useful points the rules are not applied.
 * Source: Anhoej J, Olesen AV, 2014, Run charts revisited, PLoS ONE 9:e113825, doi 10.1371/journal.pone.0113825.
 * Example: 24 useful points allow a run of 8 and ask for 8 crossings.
 */
export function runSignal(values: readonly (number | null)[], centre: number): RunSignal {
  const sides = values.flatMap((value) =>
    value === null || value === centre ? [] : [Math.sign(value - centre)],
  )
  const useful = sides.length
  if (useful < fewestPoints) return { ok: false, reason: "too-few-points", useful }
  let run = 0
  let longestRun = 0
  let crossings = 0
  for (const [place, side] of sides.entries()) {
    const isCrossing = place > 0 && side !== sides[place - 1]
    if (isCrossing) crossings += 1
    run = isCrossing ? 1 : run + 1
    longestRun = Math.max(longestRun, run)
  }
  const longestAllowed = Math.round(Math.log2(useful)) + 3
  const fewestCrossings = fifthPercentileOfCrossings(useful)
  const isShifted = longestRun > longestAllowed || crossings < fewestCrossings
  return { ok: true, useful, longestRun, longestAllowed, crossings, fewestCrossings, isShifted }
}

/** The smallest number of crossings that chance gives at least 5% of the time or stays below. */
function fifthPercentileOfCrossings(useful: number): number {
  let reached = 0
  return binomialProbabilities(useful - 1, 0.5).findIndex((chance) => (reached += chance) >= 0.05)
}
