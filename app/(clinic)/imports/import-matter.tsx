import type { ComponentProps } from "react"
import { Theme } from "../../_ui/screen"
import { FileCounts } from "./file-counts"
import { importSentence } from "./import-words"
import styles from "./imports.module.css"
import { Progress } from "./progress"
import { Question } from "./question"
import { RejectedRows } from "./rejected-rows"
import { isUnderWay } from "./working"

/** One import: how it stands, what came of each file, and every row it could not keep. */
export function ImportMatter(props: ComponentProps<typeof RejectedRows>) {
  const { entry } = props
  return (
    <>
      <div className={styles.first}>
        {isUnderWay(entry) ? <Progress entry={entry} /> : null}
        {entry.message === null ? null : <p className={styles.message}>{entry.message}</p>}
        {entry.question && entry.status === "asks" ? (
          <Question entry={entry} question={entry.question} />
        ) : null}
      </div>
      {entry.files.length === 0 ? null : (
        <>
          <Theme title="File by file">
            <p className={styles.sentence}>{importSentence(entry)}</p>
            <FileCounts files={entry.files} importId={entry.id} />
          </Theme>
          <RejectedRows {...props} />
        </>
      )}
    </>
  )
}
