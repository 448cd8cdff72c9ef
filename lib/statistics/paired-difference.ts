import { binomialProbabilities } from "./binomial"
import type { Difference } from "./newcombe-difference"
import { wilsonInterval } from "./wilson-interval"

/** The same people in two months: who met in both, came to meet, ceased to meet, met in neither. */
export type PairedCounts = { bothMet: number; gained: number; lost: number; neither: number }

/**
 * Difference of a share between two months of the same people, later minus earlier, with its 95% interval and the
 * exact chance of so uneven a split of those who changed.
 *
 * Shape: whole numbers of people; ratios in -1..1 and p in 0..1. p is 1 when nobody changed.
 * Absent: null when there is nobody.
 * Throws: RangeError when a count is not a whole number of at least 0.
 * Source: Newcombe RG, 1998, Improved confidence intervals for the difference between binomial proportions based
 * on paired data, Stat Med 17:2635-2650: Wilson limits of both shares joined with the correlation phi, without a
 * correction for continuity; McNemar Q, 1947, Psychometrika 12:153-157, as the exact two-sided binomial test.
 * Example: 108 in both, 19 gained, 9 lost, 49 in neither: +0.0541 (-0.0015 to 0.1092), p 0.087.
 */
export function pairedDifference(counts: PairedCounts): (Difference & { p: number }) | null {
  const { bothMet, gained, lost, neither } = counts
  if (![bothMet, gained, lost, neither].every((count) => Number.isInteger(count) && count >= 0)) {
    throw new RangeError("pairedDifference requires whole counts of at least 0")
  }
  const people = bothMet + gained + lost + neither
  const later = wilsonInterval(bothMet + gained, people)
  const earlier = wilsonInterval(bothMet + lost, people)
  if (later === null || earlier === null) return null
  const laterShare = (bothMet + gained) / people
  const earlierShare = (bothMet + lost) / people
  const difference = (gained - lost) / people
  const phi = correlation(counts)
  const reach = (one: number, other: number) => Math.sqrt(one ** 2 - 2 * phi * one * other + other ** 2)
  return {
    difference,
    low: difference - reach(laterShare - later.low, earlier.high - earlierShare),
    high: difference + reach(later.high - laterShare, earlierShare - earlier.low),
    p: exactMcNemar(gained, lost),
  }
}

function correlation({ bothMet, gained, lost, neither }: PairedCounts): number {
  const product = (bothMet + gained) * (lost + neither) * (bothMet + lost) * (gained + neither)
  return product === 0 ? 0 : (bothMet * neither - gained * lost) / Math.sqrt(product) // 0 as in the source
}

function exactMcNemar(gained: number, lost: number): number {
  const tail = binomialProbabilities(gained + lost, 0.5).slice(0, Math.min(gained, lost) + 1)
  return Math.min(1, 2 * tail.reduce((sum, chance) => sum + chance, 0))
}
