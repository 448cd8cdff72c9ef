import Link from "next/link"
import { count } from "../../../lib/speech/format"
import type { ImportEntry } from "../../../lib/store/imports"
import { FileCounts } from "./file-counts"
import styles from "./imports.module.css"
import { durationWords, importSentence, instantInFull, statusWords } from "./import-words"
import { Progress } from "./progress"
import { Question } from "./question"
import { importHref } from "./search-params"
import { isUnderWay } from "./working"

/** One import of the history: when, what came of its rows, and what it asks. The latest stands open. */
export function ImportEntryView(props: { entry: ImportEntry; timeZone: string; isOpen: boolean }) {
  const { entry, timeZone } = props
  const rejected = entry.files.reduce((sum, file) => sum + file.rejected, 0)
  return (
    <article className={styles.entry} aria-label={`Import ${entry.id}`}>
      <h3>
        <Link href={importHref(entry.id)} prefetch={false}>
          Import {entry.id}
        </Link>
        , {entry.source}
        <span className={entry.status === "done" ? styles.state : styles.wantingState}>
          {statusWords[entry.status]}
        </span>
      </h3>
      <p className={styles.when}>{whenWords(entry, timeZone)}</p>
      {isUnderWay(entry) ? <Progress entry={entry} /> : null}
      {entry.message === null ? null : <p className={styles.message}>{entry.message}</p>}
      {entry.files.length === 0 ? null : <p>{importSentence(entry)}</p>}
      {entry.question && entry.status === "asks" ? (
        <Question entry={entry} question={entry.question} />
      ) : null}
      {entry.files.length === 0 ? null : (
        <details open={props.isOpen}>
          <summary>File by file</summary>
          <FileCounts files={entry.files} importId={entry.id} />
        </details>
      )}
      {rejected === 0 ? null : (
        <p className={styles.more}>
          <Link href={`${importHref(entry.id)}#rejects`} prefetch={false}>
            {count(rejected)} rejected {rejected === 1 ? "row" : "rows"}, each with its reason
          </Link>
        </p>
      )}
    </article>
  )
}

export function whenWords(entry: ImportEntry, timeZone: string): string {
  const began = instantInFull(entry.startedAt, timeZone)
  const took = entry.finishedAt ? `, took ${durationWords(entry.startedAt, entry.finishedAt)}` : ""
  const kind = entry.isFull ? ", full extract" : ""
  const wasAsked = entry.isAccepted && entry.question !== null
  return `${began}${took}${kind}${wasAsked ? ", gone on with after its question" : ""}`
}
