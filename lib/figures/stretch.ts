/** An unbroken stretch of months on one side of the centre, by the places of its first and last month. */
export type Stretch = { from: number; through: number; months: number; side: "above" | "below" }

/**
 * The longest stretch of values on one side of a centre; of two as long, the later.
 *
 * Shape: values in order of time, null for a month that is not judged; the centre in their unit. A stretch goes on over
 * such months and over values on the centre, which do not count.
 * Absent: null when no value lies off the centre.
 * Example: 1, 3, null, 4, 2 about 2 has the stretch 3, 4 above: two months, places 1 to 3.
 */
export function longestStretch(values: readonly (number | null)[], centre: number): Stretch | null {
  const stretches: Stretch[] = []
  for (const [place, value] of values.entries()) {
    if (value === null || value === centre) continue
    const side = value > centre ? "above" : "below"
    const last = stretches.at(-1)
    if (last?.side === side)
      stretches[stretches.length - 1] = { ...last, through: place, months: last.months + 1 }
    else stretches.push({ from: place, through: place, months: 1, side })
  }
  const most = Math.max(...stretches.map((stretch) => stretch.months))
  return stretches.findLast((stretch) => stretch.months === most) ?? null
}
