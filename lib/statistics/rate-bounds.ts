import type { Interval } from "./interval"
import type { StandingCounts } from "./rate"

/**
 * What the rate would be if everyone not measured stood on the one side, and on the other.
 *
 * Shape: counts of one measure on one day; low = met / all and high = (met + unknown) / all in 0..1, where
 * all = met + not met + unknown.
 * Absent: null when there is nobody in all.
 * Source: the definitions, "How a measure speaks".
 * Example: 138 met, 52 not met, 22 unknown: 0.6509 to 0.7547.
 */
export function rateBounds(counts: StandingCounts): Interval | null {
  const all = counts.met + counts.notMet + counts.unknown
  return all === 0 ? null : { low: counts.met / all, high: (counts.met + counts.unknown) / all }
}
