import type { Chart } from "./chart"

/** Where a chart stands on its page, and where in it a month and a value lie. */
export type Frame = {
  left: number
  right: number
  top: number
  height: number
  scale: { low: number; high: number }
  x: (month: number) => number
  y: (value: number) => number
  /** Part of the way from the first month to the last, 0 to 1. */
  along: (share: number) => number
}

export function frameOf(
  chart: Chart,
  place: { left: number; right: number; top: number; height: number },
): Frame {
  const { left, right, top, height } = place
  const scale = scaleOf(chart)
  const along = (share: number) => left + (right - left) * share
  return {
    ...{ left, right, top, height, scale, along },
    x: (month) => (chart.points.length < 2 ? right : along(month / (chart.points.length - 1))),
    y: (value) => {
      const held = Math.min(scale.high, Math.max(scale.low, value))
      return top + (1 - (held - scale.low) / (scale.high - scale.low)) * height
    },
  }
}

function scaleOf(chart: Chart): { low: number; high: number } {
  const { points, bounds, baseline, limits, least, ceiling, drawn } = chart
  const values = [...points, ...bounds]
    .flatMap((point) => ["value" in point ? point.value : null, point.low, point.high])
    .concat(drawn === "columns" ? 0 : null, baseline?.value ?? null, ...limits.map((limit) => limit.value))
    .filter((value) => value !== null)
  const middle = values.length === 0 ? 0 : (Math.min(...values) + Math.max(...values)) / 2
  const half =
    values.length === 0 ? least / 2 : Math.max(least, Math.max(...values) - Math.min(...values)) / 2
  const low = Math.max(0, middle - half)
  const high = Math.max(low + least, middle + half)
  if (ceiling === null || high <= ceiling) return { low, high }
  return { low: Math.max(0, Math.min(low, ceiling - least)), high: ceiling }
}
