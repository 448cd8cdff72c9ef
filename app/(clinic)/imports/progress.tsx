import { percent } from "../../../lib/speech/format"
import type { ImportEntry } from "../../../lib/store/imports"
import styles from "./imports.module.css"

/** How far a running import has read, in words and as a bar. */
export function Progress({ entry }: { entry: ImportEntry }) {
  const { doneBytes, totalBytes } = entry
  const share = totalBytes === 0 ? null : Math.min(1, doneBytes / totalBytes)
  const isRead = share !== null && share >= 1
  const words =
    entry.status === "waiting"
      ? "Waits until the import before it is stored."
      : isRead
        ? "All read; checking and storing."
        : share === null
          ? "Beginning to read."
          : `Read ${percent(share)} of ${megabytes(totalBytes)}.`
  return (
    <div className={styles.progress} role="status">
      <p>{words}</p>
      <progress max={1} value={share === null || isRead ? undefined : share} aria-label="Read so far" />
    </div>
  )
}

export function megabytes(bytes: number): string {
  const mb = bytes / 1_000_000
  return `${mb < 10 ? mb.toFixed(1) : Math.round(mb).toLocaleString("en-US")} MB`
}
