import { binomialLimit } from "./binomial-limit"
import type { Interval } from "./interval"

type Counted = { met: number; total: number }

/** Where 95% and 99.8% of units of so many people lie when they differ by chance alone, or by as much as these do. */
export type FunnelLimits = { wide: Interval; narrow: Interval }

export type Funnel = {
  target: number
  phi: number
  tauSquared: number
  isAdjusted: boolean
  units: { z: number; adjustedZ: number }[]
  limitsAt: (total: number) => FunnelLimits
}

const z95 = 1.959964 // standard normal quantile at 0.975
const z998 = 3.090232 // standard normal quantile at 0.999

/**
 * The limits between which the rates of several clinicians or sites are expected around their common rate.
 *
 * Shape: counted units of different people, each with a total of at least 1; ratios in 0..1. phi is the mean squared
 * distance of the units after the outer tenth on each side was drawn in; tauSquared the variance between them
 * beyond chance. isAdjusted when phi says that they vary more than chance gives: then the limits hold tauSquared.
 * Absent: null with fewer than two units, or when all or nobody met.
 * Throws: RangeError when a count is not a whole number that fits.
 * Source: Spiegelhalter DJ, 2005, Stat Med 24:1185-1202, doi 10.1002/sim.1970; the variance between units after
 * Spiegelhalter DJ, 2005, Handling over-dispersion of performance indicators, Qual Saf Health Care 14:347-351.
 * Example: 31/52, 22/41, 44/58, 18/29, 37/47 and 25/49 have target 0.6413, phi 2.325 and tauSquared 0.009024.
 */
export function funnel(units: readonly Counted[]): Funnel | null {
  const areCounts = units.every(
    ({ met, total }) =>
      Number.isInteger(met) && Number.isInteger(total) && met >= 0 && met <= total && total > 0,
  )
  if (!areCounts)
    throw new RangeError("funnel requires whole counts with 0 <= met <= total and a total above 0")
  const met = units.reduce((sum, unit) => sum + unit.met, 0)
  const people = units.reduce((sum, unit) => sum + unit.total, 0)
  if (units.length < 2 || met === 0 || met === people) return null
  const target = met / people
  const varianceOf = (total: number) => (target * (1 - target)) / total
  const scores = units.map((unit) => (unit.met / unit.total - target) / Math.sqrt(varianceOf(unit.total)))
  const phi = winsorised(scores).reduce((sum, z) => sum + z ** 2, 0) / units.length
  const weights = units.map(({ total }) => 1 / varianceOf(total))
  const weight = weights.reduce((sum, one) => sum + one, 0)
  const squared = weights.reduce((sum, one) => sum + one ** 2, 0)
  const excess = units.length * phi - (units.length - 1)
  const tauSquared = Math.max(0, excess / (weight - squared / weight))
  return {
    target,
    phi,
    tauSquared,
    isAdjusted: tauSquared > 0,
    units: units.map((unit, place) => ({
      z: scores[place] ?? 0,
      adjustedZ: (unit.met / unit.total - target) / Math.sqrt(varianceOf(unit.total) + tauSquared),
    })),
    limitsAt: (total) =>
      tauSquared > 0
        ? normalLimits(target, Math.sqrt(varianceOf(total) + tauSquared))
        : exactLimits(target, total),
  }
}

function winsorised(scores: readonly number[]): number[] {
  const sorted = [...scores].sort((a, b) => a - b)
  const cut = Math.floor(scores.length / 10)
  const least = sorted[cut] ?? -Infinity
  const most = sorted[sorted.length - 1 - cut] ?? Infinity
  return scores.map((z) => Math.min(most, Math.max(least, z)))
}

function exactLimits(target: number, total: number): FunnelLimits {
  const at = (probability: number) => Math.max(0, binomialLimit({ target, total, probability }))
  return { narrow: { low: at(0.025), high: at(0.975) }, wide: { low: at(0.001), high: at(0.999) } }
}

function normalLimits(target: number, spread: number): FunnelLimits {
  const around = (z: number) => ({
    low: Math.max(0, target - z * spread),
    high: Math.min(1, target + z * spread),
  })
  return { narrow: around(z95), wide: around(z998) }
}
