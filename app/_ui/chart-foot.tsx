import styles from "./chart-foot.module.css"
import { Figures, type FiguresTable } from "./figures"

/** Beneath a chart over the months: its first and last date, and its figures as a table. */
export function ChartFoot(props: { first?: string; last?: string; figures?: FiguresTable }) {
  return (
    <div className={styles.foot}>
      <span aria-hidden="true">{props.first}</span>
      <span aria-hidden="true">{props.last}</span>
      {props.figures ? <Figures table={props.figures} /> : null}
    </div>
  )
}
