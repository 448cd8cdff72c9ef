import type { UsersState } from "./actions"
import styles from "./users.module.css"

/** What came of it: why not, or the link, which shows here and never again. */
export function Outcome({ state }: { state: UsersState }) {
  if (state.problem !== null)
    return (
      <p role="alert" className={styles.problem}>
        {state.problem}
      </p>
    )
  if (state.link === null) return null
  return (
    <p role="status" className={styles.link}>
      The link, shown once: <code>{state.link}</code>
    </p>
  )
}
