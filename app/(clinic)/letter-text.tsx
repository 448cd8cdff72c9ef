import type { FilledLetter } from "../../lib/letters/fill-letter"
import styles from "./letter-text.module.css"

/** A letter as its reader has it, in its language and the direction of its script. */
export function LetterText({ letter, label }: { letter: FilledLetter; label: string }) {
  return (
    <article lang={letter.language} dir={letter.direction} aria-label={label} className={styles.letter}>
      {letter.letterhead === "" ? null : <p className={styles.head}>{letter.letterhead}</p>}
      <p className={styles.subject}>{letter.subject}</p>
      <p>{letter.body}</p>
      {letter.closing === "" ? null : <p>{letter.closing}</p>}
    </article>
  )
}
