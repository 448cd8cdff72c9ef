import type { ReactNode } from "react"
import { day } from "../../lib/speech/format"
import styles from "./people-list.module.css"

/** A named value of a person in a list with its day, or what is said where there is none. */
export function PersonValue(props: {
  name: string
  on: string | null
  absent?: string
  children: ReactNode
}) {
  return (
    <div>
      <dt>{props.name}</dt>
      <dd>
        {props.children ?? <span className={styles.soft}>{props.absent ?? "no result"}</span>}
        {props.on === null ? null : <span className={styles.soft}>, {day(props.on)}</span>}
      </dd>
    </div>
  )
}
