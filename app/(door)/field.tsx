import type { ComponentProps } from "react"
import styles from "./door.module.css"

/** One thing that is typed, under its name, with a word of help where it needs one. */
export function Field({ label, note, ...props }: ComponentProps<"input"> & { label: string; note?: string }) {
  const noteId = note ? `${props.name}-note` : undefined
  return (
    <div className={styles.field}>
      <label htmlFor={props.name}>{label}</label>
      <input id={props.name} aria-describedby={noteId} required {...props} />
      {note ? (
        <p id={noteId} className={styles.note}>
          {note}
        </p>
      ) : null}
    </div>
  )
}

/** Why it did not go on; nothing while nothing is wrong. */
export function Problem({ words }: { words: string | null }) {
  return words === null ? null : (
    <p role="alert" className={styles.problem}>
      {words}
    </p>
  )
}
