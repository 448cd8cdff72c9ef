import { placeWords, type PressureSource } from "../../lib/speech/pressure-place"
import styles from "./pressure-mark.module.css"

/** Where a pressure was taken, by shape and word: open square office, filled circle home, diamond 24-hour. */
export function PressureMark({ source }: { source: PressureSource }) {
  return (
    <span className={styles.mark}>
      <svg viewBox="0 0 12 12" width="11" height="11" aria-hidden="true" focusable="false">
        {source === "office" ? (
          <rect x="1.75" y="1.75" width="8.5" height="8.5" className={styles.open} />
        ) : null}
        {source === "home" ? <circle cx="6" cy="6" r="5" className={styles.filled} /> : null}
        {source === "ambulatory" ? <path d="M6 0.5L11.5 6L6 11.5L0.5 6Z" className={styles.filled} /> : null}
      </svg>
      {placeWords[source]}
    </span>
  )
}
