import type { FunnelFigure, FunnelPoint } from "../../lib/figures/funnel-figure"
import { count, percent } from "../../lib/speech/format"
import { placeOn, scaleOver, twoTicks, type Scale } from "./chart-scale"
import { placed } from "./placed"
import styles from "./funnel-plot.module.css"

const size = { width: 600, height: 200, letter: 6.2, line: 15 } // px of a plot where names are shown

/** Shares by the number of people counted, the common share as a hairline, the limits as lines; names where there is room. */
export function FunnelPlot({ title, figure }: { title: string; figure: FunnelFigure }) {
  const { points, limits, target } = figure
  const most = limits.at(-1)?.total ?? 1
  const across: Scale = { low: 0, high: most }
  const fewest = Math.min(...points.map((point) => point.total))
  const atFewest = limits.find((limit) => limit.total >= fewest)
  const scale = scaleOver(
    [...points.map((point) => point.share), atFewest?.wide.low ?? null, atFewest?.wide.high ?? null],
    { least: 0.2, floor: 0, ceiling: 1 },
  )
  const left = (total: number) => `${placeOn(across, total) * 100}%`
  const top = (share: number) => `${(1 - placeOn(scale, share)) * 100}%`
  const sides = labelSides(points, { across, scale })
  return (
    <figure className={styles.funnel}>
      <div
        className={styles.plot}
        role="img"
        aria-label={`${title}: share by people counted. ${figure.words}`}
      >
        <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
          <Curves figure={figure} scale={scale} most={most} />
          <path className={styles.target} d={`M0 ${y(scale, target)}H1000`} />
        </svg>
        {twoTicks(scale).map((value) => (
          <span key={value} className={styles.tick} {...placed({ top: top(value) })}>
            {percent(value)}
          </span>
        ))}
        {points.map((point) => {
          const side = sides.get(point.name)
          return (
            <span
              key={point.name}
              className={styles.unit}
              {...placed({ left: left(point.total), top: top(point.share) })}
            >
              <span className={styles.dot} />
              {side === undefined ? null : <span className={styles[side]}>{point.name}</span>}
            </span>
          )
        })}
      </div>
      <div className={styles.foot} aria-hidden="true">
        <span>0</span>
        <span>{count(most)} people counted</span>
      </div>
      <figcaption>{figure.words}</figcaption>
    </figure>
  )
}

function Curves({ figure, scale, most }: { figure: FunnelFigure; scale: Scale; most: number }) {
  const curve = (of: (limit: FunnelFigure["limits"][number]) => number) =>
    `M${figure.limits.map((limit) => `${((limit.total / most) * 1000).toFixed(1)} ${y(scale, of(limit))}`).join("L")}`
  return (
    <>
      <path className={styles.wide} d={curve((limit) => limit.wide.low)} />
      <path className={styles.wide} d={curve((limit) => limit.wide.high)} />
      <path className={styles.narrow} d={curve((limit) => limit.narrow.low)} />
      <path className={styles.narrow} d={curve((limit) => limit.narrow.high)} />
    </>
  )
}

function y(scale: Scale, share: number): string {
  return ((1 - placeOn(scale, share)) * 100).toFixed(2)
}

/** On which side of its point a name stands clear of the other points, the other names and the edges; without one it is left out. */
function labelSides(
  points: FunnelPoint[],
  scales: { across: Scale; scale: Scale },
): Map<string, "before" | "after"> {
  const at = (point: FunnelPoint) => ({
    x: placeOn(scales.across, point.total) * size.width,
    y: (1 - placeOn(scales.scale, point.share)) * size.height,
  })
  const boxes = points.map((point) => ({ ...at(point), from: at(point).x - 5, to: at(point).x + 5 }))
  const sides = new Map<string, "before" | "after">()
  for (const point of points) {
    const { x, y } = at(point)
    const width = point.name.length * size.letter
    for (const side of ["after", "before"] as const) {
      const from = side === "after" ? x + 7 : x - 7 - width
      const to = from + width
      const isClear = boxes.every((box) => Math.abs(box.y - y) >= size.line || box.to < from || box.from > to)
      if (from < 0 || to > size.width || !isClear) continue
      sides.set(point.name, side)
      boxes.push({ x, y, from, to })
      break
    }
  }
  return sides
}
