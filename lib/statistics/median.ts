/**
 * Median of the values present: the middle one, or the mean of the two in the middle.
 *
 * Shape: any numbers, null for a month without a value; the answer is in their unit.
 * Absent: null when no value is present.
 * Example: 3, null, 1, 10 gives 3.
 */
export function median(values: readonly (number | null)[]): number | null {
  const present = values.filter((value) => value !== null).sort((a, b) => a - b)
  const lower = present[Math.floor((present.length - 1) / 2)]
  const upper = present[Math.floor(present.length / 2)]
  return lower === undefined || upper === undefined ? null : (lower + upper) / 2
}
