import type { Interval } from "./interval"
import { tQuantile975 } from "./t-quantile"

/**
 * 95% interval of a mean by Student's t: mean +- t(n - 1) x sd / sqrt(n).
 *
 * Shape: n a whole number, mean and sample standard deviation (n - 1 below the line) in one unit, which is
 * also the unit of the answer.
 * Absent: null when n < 2 or when mean or sd is absent.
 * Throws: RangeError when n is not a whole number of at least 0 or sd is negative.
 * Source: Student, 1908, The probable error of a mean, Biometrika 6:1-25, doi 10.1093/biomet/6.1.1.
 * Example: n 4, mean -200, sd 141.42 gives -425.0 to 25.0.
 */
export function tInterval(sample: { n: number; mean: number | null; sd: number | null }): Interval | null {
  const { n, mean, sd } = sample
  if (!Number.isInteger(n) || n < 0) throw new RangeError("tInterval requires a whole n of at least 0")
  if (sd !== null && sd < 0) throw new RangeError("tInterval requires a standard deviation of at least 0")
  if (n < 2 || mean === null || sd === null) return null
  const half = (tQuantile975(n - 1) * sd) / Math.sqrt(n)
  return { low: mean - half, high: mean + half }
}
