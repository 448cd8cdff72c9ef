import styles from "./note.module.css"
import { noteSummary, type SummaryOf } from "./note-summary"
import { NoteText } from "./note-text"

/** The screen as plain text that a clinician takes along into a note. */
export function Note(props: SummaryOf) {
  return (
    <details className={styles.note}>
      <summary>Summary for a note</summary>
      <NoteText text={noteSummary(props)} />
    </details>
  )
}
