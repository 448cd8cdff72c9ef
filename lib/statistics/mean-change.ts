/** How many people and the sum of their values. */
export type Sum = { n: number; sum: number }

/** The whole change of a mean and its three parts, which add up to it. */
export type MeanChange = { change: number; continuing: number; leavers: number; joiners: number }

/**
 * The change of a mean between two months split into what the people of both months changed, and what those who left
 * and those who joined changed by no longer, or newly, being in the mean.
 *
 * Shape: sums of one value per person; `both` are the people of both months, once with their earlier and once with
 * their later values. The answer is in the unit of the values.
 * Absent: null when nobody is in both months, as nothing then parts the change.
 * Source: an identity: (B2 - B1) + (B1 - M1) + (M2 - B2) = M2 - M1, with M the means of all and B of those in both.
 * Example: 3533.3 to 3842.9: -200.0 + 166.7 + 342.9 = +309.5.
 */
export function meanChange(sums: {
  earlier: Sum
  later: Sum
  bothEarlier: Sum
  bothLater: Sum
}): MeanChange | null {
  if (sums.bothEarlier.n === 0) return null
  const earlier = meanOf(sums.earlier)
  const later = meanOf(sums.later)
  const bothEarlier = meanOf(sums.bothEarlier)
  const bothLater = meanOf(sums.bothLater)
  return {
    change: later - earlier,
    continuing: bothLater - bothEarlier,
    leavers: bothEarlier - earlier,
    joiners: later - bothLater,
  }
}

function meanOf({ n, sum }: Sum): number {
  return sum / n
}
