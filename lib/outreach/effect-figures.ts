import { newcombeDifference, type Difference } from "../statistics/newcombe-difference"
import { wilsonInterval } from "../statistics/wilson-interval"
import type { Interval } from "../statistics/interval"

export type Share = { resolved: number; total: number; rate: number; interval: Interval }

/** What became of the pairs after so many days; the shares are null where there are too few to say. */
export type PairFigure = {
  days: 30 | 90
  pairs: number
  contactedResolved: number
  othersResolved: number
  shown: { contacted: Share; others: Share; difference: Difference } | null
}

type Counts = Record<"pairs" | "contacted_resolved" | "others_resolved", number>

/**
 * The shares of a pair of groups with their difference. Shape: counts of pairs, `fewest` the number from which shares are shown.
 * Absent: `shown` is null below it. Source: the intervals are Wilson's and Newcombe's, as everywhere.
 * Example: of 40 pairs 24 and 16 resolved: 60% and 40%, a difference of 20 points (-2 to 39).
 */
export function pairFigure(days: 30 | 90, counts: Counts, fewest: number): PairFigure {
  const { pairs, contacted_resolved: contactedResolved, others_resolved: othersResolved } = counts
  const bare = { days, pairs, contactedResolved, othersResolved, shown: null }
  if (pairs < fewest) return bare
  const contacted = shareOf(contactedResolved, pairs)
  const others = shareOf(othersResolved, pairs)
  const difference = newcombeDifference(
    { met: contactedResolved, total: pairs },
    { met: othersResolved, total: pairs },
  )
  if (contacted === null || others === null || difference === null) return bare
  return { ...bare, shown: { contacted, others, difference } }
}

function shareOf(resolved: number, total: number): Share | null {
  const interval = wilsonInterval(resolved, total)
  return interval === null ? null : { resolved, total, rate: resolved / total, interval }
}
