import Link from "next/link"
import type { ReactNode } from "react"
import styles from "./entry.module.css"
import { measureHref } from "./search-params"

/** One line of the catalogue. */
export function Entry(props: {
  id: string
  month: string | null
  name: string
  question: string
  figure: ReactNode
  counts: ReactNode
  change: string
  actor: string
}) {
  return (
    <li className={styles.entry}>
      <div>
        <h3>
          <Link href={measureHref(props.id, { month: props.month })} prefetch={false}>
            {props.name}
          </Link>
        </h3>
        <p className="soft">{props.question}</p>
      </div>
      <div className={styles.figure}>{props.figure}</div>
      <div className={styles.counts}>{props.counts}</div>
      <div className={styles.change}>
        <p>{props.change}</p>
        <p className="soft">{props.actor}</p>
      </div>
    </li>
  )
}
