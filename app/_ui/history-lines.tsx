import { placeOn, type Scale } from "./chart-scale"
import styles from "./history-chart.module.css"

export type HistoryPoint = { label: string; value: number | null; low: number | null; high: number | null }

export type HistoryLimit = { value: number; label: string }

/** A level that stood over some of the months, by the places of the first and last. */
export type HistoryLevel = { value: number; label: string; from?: number; through?: number }

/** Between what ends a month lies when chance alone is at work, and whether it lies outside. */
export type HistoryBound = { low: number | null; high: number | null; outside: "above" | "below" | null }

/** How the values stand: as a line, as columns of few people, or as dots where each month has its own people. */
export type HistoryDrawing = "line" | "columns" | "dots"

/** The lines of a chart over the months, in a picture that is stretched to its frame. */
export function HistoryLines(props: {
  points: HistoryPoint[]
  chosen: number
  scale: Scale
  baseline: HistoryLevel | null
  limits: HistoryLimit[]
  bounds: HistoryBound[]
  drawn: HistoryDrawing
}) {
  const { points, scale } = props
  const x = (place: number) => (points.length < 2 ? 1000 : (place / (points.length - 1)) * 1000).toFixed(1)
  const y = (value: number) => ((1 - placeOn(scale, value)) * 100).toFixed(2)
  const edge = (value: number) => y(Math.min(scale.high, Math.max(scale.low, value)))
  const level = (value: number) => `M0 ${y(value)}H1000`
  const stretch = ({ value, from = 0, through = points.length - 1 }: HistoryLevel) =>
    `M${x(from)} ${y(value)}H${x(through)}`
  if (props.drawn === "columns") {
    const column = ({ value }: HistoryPoint, place: number) =>
      value ? `M${x(place)} ${y(scale.low)}V${y(value)}` : ""
    return (
      <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
        <path className={styles.ground} d={level(scale.low)} />
        <path
          className={styles.column}
          d={points
            .slice(0, props.chosen + 1)
            .map(column)
            .join("")}
        />
        <path
          className={styles.laterColumn}
          d={points.map((point, place) => (place > props.chosen ? column(point, place) : "")).join("")}
        />
      </svg>
    )
  }
  const line = (from: number, to: number) =>
    runs(points, from, to, (point) => point.value !== null)
      .map((run) => `M${run.map((place) => `${x(place)} ${y(points[place]?.value ?? 0)}`).join("L")}`)
      .join("")
  const dotted = (from: number, to: number) => (props.drawn === "dots" ? dots(points, from, to) : [])
  const alone = runs(points, 0, points.length - 1, (point) => point.value !== null)
    .filter((run) => run.length === 1 && run[0] !== props.chosen)
    .flat()
  const mark = (places: readonly number[]) =>
    places.map((place) => `M${x(place)} ${y(points[place]?.value ?? 0)}h0.01`).join("")
  const bound = (end: "low" | "high") =>
    boundRuns(props.bounds, end)
      .map((run) => `M${run.map(([place, value]) => `${x(place)} ${edge(value)}`).join("L")}`)
      .join("")
  const band = runs(points, 0, points.length - 1, (point) => point.low !== null && point.high !== null)
    .map((run) => {
      const upper = run.map((place) => `${x(place)} ${edge(points[place]?.high ?? 0)}`)
      const lower = run.map((place) => `${x(place)} ${edge(points[place]?.low ?? 0)}`).reverse()
      return `M${[...upper, ...lower].join("L")}Z`
    })
    .join("")
  return (
    <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
      <path className={styles.band} d={band} />
      {props.limits.map((limit) => (
        <path key={limit.value} className={styles.limit} d={level(limit.value)} />
      ))}
      <path className={styles.bound} d={bound("low") + bound("high")} />
      {props.baseline === null ? null : <path className={styles.baseline} d={stretch(props.baseline)} />}
      <path className={styles.later} d={line(props.chosen, points.length - 1)} />
      <path className={props.drawn === "dots" ? styles.thread : styles.line} d={line(0, props.chosen)} />
      <path className={styles.laterDots} d={mark(dotted(props.chosen + 1, points.length - 1))} />
      <path className={styles.alone} d={mark([...alone, ...dotted(0, props.chosen)])} />
    </svg>
  )
}

function dots(points: HistoryPoint[], from: number, to: number): number[] {
  return points.flatMap((point, place) =>
    place >= from && place <= to && point.value !== null ? [place] : [],
  )
}

/** The unbroken stretches of months with this bound, each as places and values. */
function boundRuns(bounds: HistoryBound[], end: "low" | "high"): [number, number][][] {
  const found: [number, number][][] = []
  for (const [place, bound] of bounds.entries()) {
    const value = bound[end]
    if (value === null) continue
    const run = found.at(-1)
    if (run && run.at(-1)?.[0] === place - 1) run.push([place, value])
    else found.push([[place, value]])
  }
  return found
}

/** The unbroken stretches of months that have a value. */
function runs(
  points: HistoryPoint[],
  from: number,
  to: number,
  has: (point: HistoryPoint) => boolean,
): number[][] {
  const found: number[][] = []
  for (let place = from; place <= to; place += 1) {
    const point = points[place]
    if (!point || !has(point)) continue
    const run = found.at(-1)
    if (run && run.at(-1) === place - 1) run.push(place)
    else found.push([place])
  }
  return found
}
