/** A number's place between the ends of an axis: 0 at the low end, 1 at the high end. */
export type Scale = { low: number; high: number }

/** An axis that holds all the values and is at least `least` wide, with a little air at both ends. */
export function scaleOver(
  values: readonly (number | null)[],
  options: { least: number; floor?: number; ceiling?: number },
): Scale {
  const present = values.filter((value) => value !== null)
  if (present.length === 0) return { low: options.floor ?? 0, high: (options.floor ?? 0) + options.least }
  const lowest = Math.min(...present)
  const highest = Math.max(...present)
  const missing = Math.max(0, options.least - (highest - lowest)) / 2
  const air = Math.max(highest - lowest, options.least) * 0.06
  return {
    low: Math.max(options.floor ?? -Infinity, lowest - missing - air),
    high: Math.min(options.ceiling ?? Infinity, highest + missing + air),
  }
}

export function placeOn(scale: Scale, value: number): number {
  return scale.high === scale.low ? 0.5 : (value - scale.low) / (scale.high - scale.low)
}

/** Two round numbers inside the axis, far enough apart to read a slope by; fewer when none fit. */
export function twoTicks(scale: Scale): number[] {
  const width = scale.high - scale.low
  const steps = [1, 2, 5].flatMap((lead) => [-3, -2, -1, 0, 1, 2, 3].map((power) => lead * 10 ** power))
  const step = Math.max(...steps.filter((size) => size <= width * 0.6), Math.min(...steps))
  const first = Math.ceil(scale.low / step) * step
  const last = Math.floor(scale.high / step) * step
  return first > last ? [] : first === last ? [first] : [first, last]
}
