import type { Interval } from "./interval"
import { wilsonInterval } from "./wilson-interval"

/** How many people stand where; population = excluded + unknown + met + exception + notMet. */
export type StandingCounts = {
  population: number
  excluded: number
  unknown: number
  met: number
  exception: number
  notMet: number
}

export type Direction = "up" | "down"

export type Rate = {
  met: number
  total: number
  rate: number | null
  interval: Interval | null
  measured: number
  ofMeasured: number | null
}

/**
 * The rate of a measure with its interval, and the share among the measured.
 *
 * Shape: counts of one measure on one day. Direction up: met / (met + not met + unknown), whoever was not
 * measured counts against the clinic; direction down: met / (met + not met). Ratios in 0..1.
 * Absent: rate and interval are null when the denominator is 0; ofMeasured likewise on met + not met.
 * Source: the definitions, "How a measure speaks"; the interval is Wilson's on the rate's own two counts.
 * Example: up, 138 met, 52 not met, 22 unknown: 138 / 212 = 0.651 (0.5846 to 0.7119), of the measured 0.726.
 */
export function rateOf(counts: StandingCounts, direction: Direction): Rate {
  const measured = counts.met + counts.notMet
  const total = direction === "up" ? measured + counts.unknown : measured
  return {
    met: counts.met,
    total,
    rate: total === 0 ? null : counts.met / total,
    interval: wilsonInterval(counts.met, total),
    measured,
    ofMeasured: measured === 0 ? null : counts.met / measured,
  }
}
