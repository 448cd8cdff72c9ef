import type { Interval } from "./interval"
import { wilsonInterval } from "./wilson-interval"

export type Difference = Interval & { difference: number }

type Counted = { met: number; total: number }

/**
 * Difference of two shares of different people, one minus the other, with its 95% interval.
 *
 * Shape: two pairs of whole numbers, 0 <= met <= total; ratios in -1..1. Nobody may be in both: for two months of
 * one panel there is pairedDifference.
 * Absent: null when a total is 0.
 * Throws: RangeError when met or total is not such a number.
 * Source: Newcombe RG, 1998, Interval estimation for the difference between independent proportions, Stat Med
 * 17:873-890, method 10, doi 10.1002/(SICI)1097-0258(19980430)17:8<873::AID-SIM779>3.0.CO;2-I.
 * Example: 56 of 70 and 48 of 80 differ by 0.2000 (0.0524 to 0.3339).
 */
export function newcombeDifference(one: Counted, other: Counted): Difference | null {
  const own = wilsonInterval(one.met, one.total)
  const others = wilsonInterval(other.met, other.total)
  if (own === null || others === null) return null
  const share = one.met / one.total
  const otherShare = other.met / other.total
  const difference = share - otherShare
  return {
    difference,
    low: difference - Math.hypot(share - own.low, others.high - otherShare),
    high: difference + Math.hypot(own.high - share, otherShare - others.low),
  }
}
