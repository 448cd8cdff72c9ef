import { placeOn, scaleOver, twoTicks, type Scale } from "./chart-scale"
import { ChartFoot } from "./chart-foot"
import type { FiguresTable } from "./figures"
import { placed } from "./placed"
import styles from "./history-chart.module.css"

export type HistoryPoint = { label: string; value: number | null; low: number | null; high: number | null }

export type HistoryLimit = { value: number; label: string }

/**
 * A measure over the months: line, interval as a band, baseline as a dotted line, the chosen month as a dot with its
 * value. Drawn on the server; figures as a table beneath, the finding in words for whoever does not see it.
 */
export function HistoryChart(props: {
  points: HistoryPoint[]
  chosen: number
  chosenLabel: string
  baseline: { value: number; label: string } | null
  limits?: HistoryLimit[]
  least: number
  floor?: number
  ceiling?: number
  size?: ChartSize
  /** Counts of few people stand as columns; a line between them would be all jags. */
  drawn?: "line" | "columns"
  tick?: (value: number) => string
  finding: string
  figures?: FiguresTable
}) {
  const { points, limits = [], size = "row" } = props
  const scale = scaleOver(
    [
      ...points.flatMap((point) => [point.value, point.low, point.high]),
      props.baseline?.value ?? null,
      ...limits.map((limit) => limit.value),
    ],
    props,
  )
  const left = (place: number) => `${points.length < 2 ? 100 : (place / (points.length - 1)) * 100}%`
  const top = (value: number) => `${(1 - placeOn(scale, value)) * 100}%`
  const chosen = points[props.chosen]
  const isLast = props.chosen === points.length - 1
  const endValue = isLast ? (chosen?.value ?? null) : null
  const limitLabels = clearLimits(scale, limits, { endValue, size })
  const taken = [endValue, ...limitLabels.map((limit) => limit.value)].filter((value) => value !== null)
  const isBaselineFree =
    props.baseline !== null && isClear(scale, props.baseline.value, { others: taken, size })

  return (
    <figure className={`${styles.chart} ${styles[size]}`}>
      <div className={styles.plot} role="img" aria-label={props.finding}>
        <Lines
          points={points}
          chosen={props.chosen}
          scale={scale}
          baseline={props.baseline?.value ?? null}
          limits={limits}
          drawn={props.drawn ?? "line"}
        />
        {props.tick
          ? twoTicks(scale).map((value) => (
              <span key={value} className={styles.tick} {...placed({ top: top(value) })}>
                {props.tick?.(value)}
              </span>
            ))
          : null}
        {limitLabels.map((limit) => (
          <span key={limit.value} className={styles.limitLabel} {...placed({ top: top(limit.value) })}>
            {limit.label}
          </span>
        ))}
        {props.baseline && isBaselineFree ? (
          <span className={styles.baselineLabel} {...placed({ top: top(props.baseline.value) })}>
            {props.baseline.label}
          </span>
        ) : null}
        {chosen && chosen.value !== null ? (
          <>
            <span className={styles.dot} {...placed({ left: left(props.chosen), top: top(chosen.value) })} />
            <span
              className={isLast ? styles.endLabel : styles.dotLabel}
              {...placed(
                isLast ? { top: top(chosen.value) } : { left: left(props.chosen), top: top(chosen.value) },
              )}
            >
              {props.chosenLabel}
            </span>
          </>
        ) : null}
      </div>
      {size === "short" ? null : (
        <ChartFoot
          first={points[0]?.label}
          last={points.length > 1 ? points.at(-1)?.label : undefined}
          figures={props.figures}
        />
      )}
    </figure>
  )
}

function Lines(props: {
  points: HistoryPoint[]
  chosen: number
  scale: Scale
  baseline: number | null
  limits: HistoryLimit[]
  drawn: "line" | "columns"
}) {
  const { points, scale } = props
  const x = (place: number) => (points.length < 2 ? 1000 : (place / (points.length - 1)) * 1000).toFixed(1)
  const y = (value: number) => ((1 - placeOn(scale, value)) * 100).toFixed(2)
  const edge = (value: number) => y(Math.min(scale.high, Math.max(scale.low, value)))
  const level = (value: number) => `M0 ${y(value)}H1000`
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
  const alone = runs(points, 0, points.length - 1, (point) => point.value !== null)
    .filter((run) => run.length === 1 && run[0] !== props.chosen)
    .map(([place = 0]) => `M${x(place)} ${y(points[place]?.value ?? 0)}h0.01`)
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
      {props.baseline === null ? null : <path className={styles.baseline} d={level(props.baseline)} />}
      <path className={styles.later} d={line(props.chosen, points.length - 1)} />
      <path className={styles.line} d={line(0, props.chosen)} />
      <path className={styles.alone} d={alone} />
    </svg>
  )
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

const heightPx = { row: 68, short: 40, tall: 136, full: 190 } as const

export type ChartSize = keyof typeof heightPx

const labelHeightPx = 12

/** The limits whose labels stand clear of the end label and of each other; the others keep their line alone. */
function clearLimits(
  scale: Scale,
  limits: HistoryLimit[],
  beside: { endValue: number | null; size: ChartSize },
): HistoryLimit[] {
  const clear: HistoryLimit[] = []
  for (const limit of limits) {
    const others = [beside.endValue, ...clear.map((other) => other.value)].filter((value) => value !== null)
    if (isClear(scale, limit.value, { others, size: beside.size })) clear.push(limit)
  }
  return clear
}

/** Whether a label in the right margin would stand clear of the others. */
function isClear(scale: Scale, value: number, beside: { others: number[]; size: ChartSize }): boolean {
  const apart = (other: number) =>
    Math.abs(placeOn(scale, value) - placeOn(scale, other)) * heightPx[beside.size]
  return beside.others.every((other) => apart(other) >= labelHeightPx)
}
