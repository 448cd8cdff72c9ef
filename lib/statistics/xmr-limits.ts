import { fewestPoints } from "./fewest-points"

export type IndividualLimits =
  | {
      ok: true
      centre: number
      low: number
      high: number
      rangeCentre: number
      rangeLimit: number
      baselinePoints: number
      points: (IndividualPoint | null)[]
    }
  | { ok: false; reason: "too-few-points" | "no-spread"; baselinePoints: number }

/** Range is the step from the value before, null for the first. */
export type IndividualPoint = {
  outside: "above" | "below" | null
  range: number | null
  isRangeOutside: boolean
}

/**
 * Limits of a chart of individual values and of the steps between them, for a mean that has no denominator.
 *
 * Shape: values in order of time, null for a month without one, and how many of the first places are the baseline,
 * which stays as it is when later values come; the answer is in the unit of the values. A step over a month without
 * a value is one step.
 * Absent: null for a month without a value. No limits with fewer than 10 values in the baseline or when they are
 * all the same.
 * Throws: RangeError when the baseline is not a whole number of at least 1.
 * Source: Montgomery DC, Introduction to Statistical Quality Control, chapter on charts for individuals (from
 * memory); 2.66 = 3 / 1.128 and 3.268 for the steps.
 * Example: a mean of 62.443 with a mean step of 2.1462 gives 56.734 to 68.152, and 7.014 for a step.
 */
export function xmrLimits(values: readonly (number | null)[], baseline: number): IndividualLimits {
  if (!Number.isInteger(baseline) || baseline < 1) {
    throw new RangeError("xmrLimits requires a baseline of at least one value")
  }
  const ranges = values.map((value, place) => {
    const before = present(values.slice(0, place)).at(-1)
    return value === null || before === undefined ? null : Math.abs(value - before)
  })
  const start = present(values.slice(0, baseline))
  const baselinePoints = start.length
  if (baselinePoints < fewestPoints) return { ok: false, reason: "too-few-points", baselinePoints }
  const rangeCentre = meanOf(present(ranges.slice(0, baseline)))
  if (rangeCentre === 0) return { ok: false, reason: "no-spread", baselinePoints }
  const centre = meanOf(start)
  const low = centre - 2.66 * rangeCentre
  const high = centre + 2.66 * rangeCentre
  const rangeLimit = 3.268 * rangeCentre
  const points = values.map((value, place): IndividualPoint | null => {
    if (value === null) return null
    const range = ranges[place] ?? null
    const outside = value > high ? "above" : value < low ? "below" : null
    return { outside, range, isRangeOutside: range !== null && range > rangeLimit }
  })
  return { ok: true, centre, low, high, rangeCentre, rangeLimit, baselinePoints, points }
}

function present(values: readonly (number | null)[]): number[] {
  return values.filter((value) => value !== null)
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
