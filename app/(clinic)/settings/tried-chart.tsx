import { ChartFoot } from "../../_ui/chart-foot"
import { placeOn, scaleOver } from "../../_ui/chart-scale"
import { Figures, type FiguresTable } from "../../_ui/figures"
import { placed } from "../../_ui/placed"
import styles from "./tried-chart.module.css"

export type TriedLine = { label: string; values: (number | null)[] }

const heightPx = 96
const labelHeightPx = 15

/** The history as it is and as it would be: a thin dashed line and a firm one, each named at its end; without a value the figures alone. */
export function TriedChart(props: {
  now: TriedLine
  then: TriedLine
  first: string
  last: string
  least: number
  floor: number
  ceiling?: number
  finding: string
  figures: FiguresTable
}) {
  const { now, then } = props
  if ([...now.values, ...then.values].every((value) => value === null))
    return <Figures table={props.figures} />
  const scale = scaleOver([...now.values, ...then.values], props)
  const top = (value: number) => (1 - placeOn(scale, value)) * 100
  const path = (values: readonly (number | null)[]) =>
    values
      .map((value, place) => {
        if (value === null) return ""
        const isStart = place === 0 || values[place - 1] === null
        return `${isStart ? "M" : "L"}${((place / Math.max(1, values.length - 1)) * 1000).toFixed(1)} ${top(value).toFixed(2)}`
      })
      .join("")
  const [nowTop, thenTop] = apart(lastTop(now, top), lastTop(then, top))
  return (
    <figure className={styles.chart}>
      <div className={styles.plot} role="img" aria-label={props.finding}>
        <svg viewBox="0 0 1000 100" preserveAspectRatio="none" aria-hidden="true" focusable="false">
          <path className={styles.now} d={path(now.values)} />
          <path className={styles.then} d={path(then.values)} />
        </svg>
        <span className={styles.nowLabel} {...placed({ top: `${nowTop}%` })}>
          {now.label}
        </span>
        <span className={styles.thenLabel} {...placed({ top: `${thenTop}%` })}>
          {then.label}
        </span>
      </div>
      <ChartFoot first={props.first} last={props.last} figures={props.figures} />
    </figure>
  )
}

function lastTop(line: TriedLine, top: (value: number) => number): number {
  const last = line.values.findLast((value) => value !== null)
  return last === undefined ? 50 : top(last)
}

/** Two labels that would cover each other are moved apart, each to its own side. */
function apart(nowTop: number, thenTop: number): [number, number] {
  const least = (labelHeightPx / heightPx) * 100
  const missing = least - Math.abs(nowTop - thenTop)
  if (missing <= 0) return [nowTop, thenTop]
  const shift = missing / 2
  return nowTop <= thenTop ? [nowTop - shift, thenTop + shift] : [nowTop + shift, thenTop - shift]
}
