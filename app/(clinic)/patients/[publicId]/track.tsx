import type { ReactNode } from "react"
import styles from "./time-line.module.css"
import { percentAt, yearStarts, type TimeSpan } from "./time-scale"
import { placed } from "../../../_ui/placed"

/**
 * One band of the time line: its name and unit on the left, the plot, and what is said at its right end. The plot is for
 * the eye; `finding` says the same to whoever does not see it.
 */
export function Track(props: {
  name: string
  unit?: string
  span: TimeSpan
  height: number
  finding: string
  right?: ReactNode
  children: ReactNode
}) {
  return (
    <section className={styles.track} data-room={roomOnPaper(props.height)} aria-label={props.name}>
      <h2>
        {props.name}
        {props.unit ? <small> {props.unit}</small> : null}
      </h2>
      <p className="visually-hidden">{props.finding}</p>
      <div className={styles.plot} {...placed({ height: `${props.height}px` })} aria-hidden="true">
        {yearStarts(props.span).map(({ day }) => (
          <span key={day} className={styles.year} {...placed({ left: `${percentAt(props.span, day)}%` })} />
        ))}
        {props.children}
      </div>
      <div className={styles.right} {...placed({ height: `${props.height}px` })} aria-hidden="true">
        {props.right}
      </div>
    </section>
  )
}

/** A word at the right end of a track, level with its value. */
export function EndLabel(props: {
  top: number
  kind?: "value" | "limit"
  /** Where the rows of a value are. */
  href?: string
  children: ReactNode
}) {
  return (
    <span
      className={props.kind === "value" ? styles.endValue : styles.endLimit}
      {...placed({ top: `${props.top}%` })}
    >
      {props.href === undefined ? (
        props.children
      ) : (
        <a tabIndex={-1} href={props.href}>
          {props.children}
        </a>
      )}
    </span>
  )
}

/** What a track says that has nothing to show. */
export function NothingThere({ children }: { children: ReactNode }) {
  return <span className={styles.nothing}>{children}</span>
}

/** On paper a track has one of three heights, by its height in px on the screen. */
function roomOnPaper(height: number): "little" | "some" | "much" {
  if (height < 40) return "little"
  return height > 100 ? "much" : "some"
}
