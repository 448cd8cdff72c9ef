import type { ReactNode } from "react"
import { isOverdue, type MeasureAction } from "../../lib/domain/measure-actions"
import { actionFacts } from "../../lib/figures/action-words"
import styles from "./action-entry.module.css"

/** One decision or action: what, who, until when, and how it stands in words. */
export function ActionEntry(props: {
  action: MeasureAction
  today: string
  timeZone: string
  /** The measure it is about, where the screen is not that measure's own. */
  about?: ReactNode
  children?: ReactNode
}) {
  const { action, today, timeZone, about } = props
  const isLate = isOverdue(action, today)
  return (
    <li className={styles.entry}>
      <p>
        {about ? <>{about}: </> : null}
        {action.text}
      </p>
      <p className={styles.facts}>
        {isLate ? <strong className={styles.late}>Overdue. </strong> : null}
        {actionFacts(action, timeZone)}
      </p>
      {action.outcome === null ? null : <p className={styles.facts}>Note: {action.outcome}</p>}
      {props.children}
    </li>
  )
}
