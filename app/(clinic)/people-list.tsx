import type { ReactNode } from "react"
import { LetGo } from "../_ui/let-go"
import { TableHead } from "../_ui/table-head"
import styles from "./people-list.module.css"

/** People as rows of sentences under heads; on a phone the cells of a row stand under each other. */
export function PeopleList(props: {
  caption: string
  heads: readonly string[]
  /** Widths of the columns where they are others than usual. */
  columns?: string | undefined
  children: ReactNode
}) {
  return (
    <table className={[styles.table, props.columns].filter(Boolean).join(" ")} role="table">
      <caption className="visually-hidden">{props.caption}</caption>
      <TableHead heads={props.heads} />
      <tbody role="rowgroup">{props.children}</tbody>
    </table>
  )
}

/** What a list is narrowed to; following it lets go. */
export function Narrowed(props: { href: string; children: ReactNode }) {
  return (
    <p className={styles.narrowed}>
      <LetGo href={props.href}>{props.children}</LetGo>
    </p>
  )
}
