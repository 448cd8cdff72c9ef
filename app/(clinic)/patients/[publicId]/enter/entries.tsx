import type { HandEntry } from "../../../../../lib/store/hand-entries"
import { counted, day } from "../../../../../lib/speech/format"
import { instantInFull } from "../../../imports/import-words"
import { sourceRowHref } from "../../../imports/search-params"
import styles from "./enter.module.css"
import { WithdrawForm } from "./withdraw-form"

/** What was typed of this person so far, latest first, with the way to take it back. */
export function Entries(props: {
  entries: readonly HandEntry[]
  publicId: string
  timeZone: string
  mayWithdraw: (entry: HandEntry) => boolean
}) {
  const { entries, publicId, timeZone, mayWithdraw } = props
  if (entries.length === 0) return <p className={styles.none}>Nothing was entered by hand yet.</p>
  return (
    <ul className={styles.entries}>
      {entries.map((entry) => (
        <li key={entry.importId}>
          <div>
            <p>
              <a href={sourceRowHref({ importId: entry.importId, kind: entry.kind, line: 2 })}>
                {whatWords(entry)}
              </a>
            </p>
            <p className={styles.none}>
              {entry.enteredBy}, {instantInFull(entry.enteredAt, timeZone)}
              {entry.rowsInForce === 0 ? "; withdrawn" : ""}
            </p>
          </div>
          {entry.rowsInForce > 0 && mayWithdraw(entry) ? (
            <WithdrawForm publicId={publicId} importId={entry.importId} about={whatWords(entry)} />
          ) : null}
        </li>
      ))}
    </ul>
  )
}

function whatWords({ kind, from, to, rows }: HandEntry): string {
  const what = kind === "diet" ? "Diet record" : `${counted(rows, "home reading", "home readings")}`
  return from === to ? `${what}, ${day(from)}` : `${what}, ${day(from)} to ${day(to)}`
}
