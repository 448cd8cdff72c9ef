import type { ReactNode } from "react"
import { isOverdue, type MeasureAction } from "../../lib/domain/measure-actions"
import { plainToday } from "../../lib/domain/plain-date"
import { day, month } from "../../lib/speech/format"
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
        {action.kind === "decision" ? "Decision. " : null}
        {action.owner === null ? null : `${action.owner}. `}
        {action.dueOn === null ? null : `Due ${day(action.dueOn)}. `}
        Of {month(action.month)}, written by {action.madeBy}.{closedWords(action, timeZone)}
      </p>
      {action.outcome === null ? null : <p className={styles.facts}>Note: {action.outcome}</p>}
      {props.children}
    </li>
  )
}

function closedWords(action: MeasureAction, timeZone: string): string {
  if (action.closedAt === null) return ""
  const word = action.state === "done" ? "Done" : "Dropped"
  return ` ${word} ${day(plainToday(action.closedAt, timeZone))}, ${action.closedBy}.`
}
