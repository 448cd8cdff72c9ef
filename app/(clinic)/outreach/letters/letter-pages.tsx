import Link from "next/link"
import { count } from "../../../../lib/speech/format"
import { DownloadLink } from "../../../_ui/button"
import type { DueLetters } from "./letters-answers"
import styles from "./letters.module.css"
import { letterFileHref, lettersHref, type LettersView } from "./search-params"

type PagesProps = { answers: DueLetters; view: LettersView; files: "here" | { proveAt: string } | null }

/** Which part of the letters this page is, the ways to the rest, and all of them as files; or why there are none. */
export function LetterPages({ answers, view, files }: PagesProps) {
  const { letters, total, before } = answers
  if (letters.length === 0) return <Nobody isBeyond={view.after !== null} />
  const last = before + letters.length
  const goesOn = letters.at(-1)?.row.one.place ?? null
  return (
    <nav aria-label="Pages of the letters" className={styles.ways}>
      <span>
        {count(before + 1)} to {count(last)} of {count(total)}
      </span>
      {view.after === null ? null : (
        <Link href={lettersHref({})} prefetch={false}>
          From the first
        </Link>
      )}
      {last < total ? (
        <Link href={lettersHref({ after: goesOn })} prefetch={false}>
          The next
        </Link>
      ) : null}
      {total > letters.length && files === "here" ? (
        <>
          <DownloadLink href={letterFileHref("csv", null)}>All {count(total)} as CSV</DownloadLink>
          <DownloadLink href={letterFileHref("xlsx", null)}>All {count(total)} as XLSX</DownloadLink>
        </>
      ) : null}
    </nav>
  )
}

function Nobody({ isBeyond }: { isBeyond: boolean }) {
  if (isBeyond)
    return (
      <p className={styles.none}>
        No letter is after this place.{" "}
        <Link href={lettersHref({})} prefetch={false}>
          From the first
        </Link>
      </p>
    )
  return (
    <p className={styles.none}>
      A letter is next for nobody. Whoever was tried as often as the clinic’s rule says stands here, and
      whoever wishes to be written to, until a letter is recorded as sent.
    </p>
  )
}
