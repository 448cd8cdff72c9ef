import type { ReactNode } from "react"
import styles from "./notice.module.css"

/** What would be here and how to get it, or what went wrong and what to do: a page that has no figures to show. */
export function Notice({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className={styles.notice}>
      <h1>{title}</h1>
      <div className={styles.words}>{children}</div>
    </div>
  )
}

/** A caution names the fact and defers; it stands beside the fact, in warm ink, and never blinks. */
export function Caution({ children }: { children: ReactNode }) {
  return <div className={styles.caution}>{children}</div>
}
