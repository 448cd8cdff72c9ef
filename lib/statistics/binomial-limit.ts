import { binomialProbabilities } from "./binomial"

/**
 * The share that chance stays below with a given probability, for so many people of one true share.
 *
 * Shape: the true share (target) and the probability in 0..1, both within; a whole total of at least 1. A share, that
 * may lie up to 1 / total below 0: the number of people is interpolated between two whole ones.
 * Throws: RangeError when the total or a share is not such a number.
 * Source: Spiegelhalter DJ, 2005, Funnel plots for comparing institutional performance, Stat Med 24:1185-1202,
 * doi 10.1002/sim.1970, appendix (from memory): the smallest r with P(X <= r) >= q, less (P(X <= r) - q) / P(X = r).
 * Example: target 0.65, 20 people: 0.4081 at 0.025 and 0.8300 at 0.975.
 */
export function binomialLimit(asked: { target: number; total: number; probability: number }): number {
  const { target, total, probability } = asked
  const isWithin = (share: number) => share > 0 && share < 1
  if (!Number.isInteger(total) || total < 1 || !isWithin(target) || !isWithin(probability)) {
    throw new RangeError("binomialLimit requires a whole total of at least 1 and shares between 0 and 1")
  }
  let reached = 0
  for (const [met, chance] of binomialProbabilities(total, target).entries()) {
    reached += chance
    if (reached >= probability) return (met - (reached - probability) / chance) / total
  }
  return 1
}
