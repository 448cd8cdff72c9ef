import { limitsWith, type Limits, type LimitsQuestion } from "./p-limits"

/**
 * Limits of a p' chart: those of a p chart, widened by how much more the baseline's months vary than chance alone.
 *
 * Shape: as pLimits. sigmaZ in the answer is the factor that was used: the mean distance between neighbouring
 * standardised shares of the baseline over 1.128, but never below leastSigma, which is 1 unless given. A factor
 * below 1 would narrow the limits; of twelve months it is mostly chance, and in a simulated clinic in which nothing
 * changes it raised the share of charts with a point outside from about 2% to 16%. 0 gives the published limits.
 * Absent: as pLimits. Throws: as pLimits.
 * Source: Laney DB, 2002, Improved control charts for attributes, Qual Eng 14:531-537 (formula read in the source
 * of a published package).
 * Example: 20 weeks of about 280,000 people at 95.3% have sigmaZ 10.64: week 1 from 0.9401 to 0.9657.
 */
export function pPrimeLimits(question: LimitsQuestion & { leastSigma?: number }): Limits {
  const { leastSigma = 1 } = question
  return limitsWith(question, (distances) => Math.max(leastSigma, meanStep(distances) / 1.128)) // d2 for two points
}

function meanStep(distances: readonly number[]): number {
  const steps = distances.slice(1).map((distance, place) => Math.abs(distance - (distances[place] ?? NaN)))
  return steps.reduce((sum, step) => sum + step, 0) / steps.length
}
