import type { PlacedNote } from "../../lib/figures/note-places"
import { placeOn, scaleOver, twoTicks, type Scale } from "./chart-scale"
import { ChartFoot } from "./chart-foot"
import type { FiguresTable } from "./figures"
import {
  HistoryLines,
  type HistoryBound,
  type HistoryDrawing,
  type HistoryLevel,
  type HistoryLimit,
  type HistoryPoint,
} from "./history-lines"
import { placed } from "./placed"
import { ChartNotes } from "./chart-notes"
import styles from "./history-chart.module.css"

export type { HistoryBound, HistoryPoint } from "./history-lines"

/**
 * A measure over the months: line, interval as a band, baseline as a dotted line, the chosen month as a dot with its
 * value. Drawn on the server; figures as a table beneath, the finding in words for whoever does not see it.
 */
export function HistoryChart(props: {
  points: HistoryPoint[]
  chosen: number
  chosenLabel: string
  baseline: HistoryLevel | null
  limits?: HistoryLimit[]
  least: number
  floor?: number
  ceiling?: number
  size?: ChartSize
  bounds?: HistoryBound[]
  notes?: readonly PlacedNote[]
  /** Counts of few people stand as columns; a line between them would be all jags. */
  drawn?: HistoryDrawing
  tick?: (value: number) => string
  finding: string
  figures?: FiguresTable
}) {
  const { points, limits = [], bounds = [], size = "row" } = props
  const scale = scaleOver(
    [
      ...points.flatMap((point) => [point.value, point.low, point.high]),
      props.baseline?.value ?? null,
      ...limits.map((limit) => limit.value),
      ...bounds.flatMap((bound) => [bound.low, bound.high]),
    ],
    props,
  )
  const left = (place: number) => `${points.length < 2 ? 100 : (place / (points.length - 1)) * 100}%`
  const top = (value: number) => `${(1 - placeOn(scale, value)) * 100}%`
  const chosen = points[props.chosen]
  const isLast = props.chosen === points.length - 1
  // Over one of the last months a label in the middle would run into those of the right margin.
  const isNearEnd = props.chosen > (points.length - 1) * 0.8
  const endValue = isLast ? (chosen?.value ?? null) : null
  const limitLabels = clearLimits(scale, limits, { endValue, size })
  const taken = [endValue, ...limitLabels.map((limit) => limit.value)].filter((value) => value !== null)
  const isBaselineFree =
    props.baseline !== null && isClear(scale, props.baseline.value, { others: taken, size })

  return (
    <figure className={`${styles.chart} ${styles[size]}`}>
      <div className={styles.plot} role="img" aria-label={props.finding}>
        <HistoryLines
          points={points}
          chosen={props.chosen}
          scale={scale}
          baseline={props.baseline}
          limits={limits}
          bounds={bounds}
          drawn={props.drawn ?? "line"}
        />
        <ChartNotes notes={props.notes ?? []} />
        {bounds.map(({ outside }, place) => {
          const point = points[place]
          if (outside === null || !point || point.value === null) return null
          const at = { left: left(place), top: top(point.value) }
          return (
            <span key={place} className={`${styles.outside} ${styles[outside]}`} {...placed(at)}>
              {isWorded(bounds, place) ? <span>{outside}</span> : null}
            </span>
          )
        })}
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
              className={isLast ? styles.endLabel : `${styles.dotLabel} ${isNearEnd ? styles.nearEnd : ""}`}
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

/** Of months outside that lie close together the first has the word, and the others have room for their mark alone. */
function isWorded(bounds: readonly HistoryBound[], place: number): boolean {
  const near = bounds.slice(Math.max(0, place - 4), place)
  return near.every(({ outside }) => outside !== bounds[place]?.outside)
}

const heightPx = { row: 68, short: 40, tall: 136, under: 136, full: 190 } as const

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
