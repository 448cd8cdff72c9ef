import type { Interval } from "./interval"

const z = 1.959964 // standard normal quantile at 0.975, to the digits the definitions give

/**
 * Wilson score interval without continuity correction: the 95% interval of a share met / total.
 *
 * Shape: two whole numbers, 0 <= met <= total; the answer's ends are ratios in 0..1.
 * Absent: null when total is 0, since no share exists.
 * Throws: RangeError when met or total is not such a number.
 * Source: Wilson EB, 1927, Probable inference, the law of succession, and statistical inference,
 * J Am Stat Assoc 22:209-212; written as method 3 of Newcombe RG, 1998, Stat Med 17:857-872.
 * Example: 81 of 263 gives 0.2553 to 0.3662.
 */
export function wilsonInterval(met: number, total: number): Interval | null {
  if (!Number.isInteger(met) || !Number.isInteger(total) || met < 0 || met > total) {
    throw new RangeError("wilsonInterval requires whole numbers with 0 <= met <= total")
  }
  if (total === 0) return null
  const share = met / total
  const shrink = 1 + z ** 2 / total
  const centre = (share + z ** 2 / (2 * total)) / shrink
  const half = (z / shrink) * Math.sqrt((share * (1 - share)) / total + z ** 2 / (4 * total ** 2))
  return {
    low: met === 0 ? 0 : Math.max(0, centre - half),
    high: met === total ? 1 : Math.min(1, centre + half),
  }
}
