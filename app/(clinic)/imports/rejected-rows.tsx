import Link from "next/link"
import type { Caller } from "../../../lib/access/caller"
import { count } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import type { ImportEntry, RejectedLine } from "../../../lib/store/imports"
import { ListDownload } from "../list-download"
import styles from "./imports.module.css"
import { PlainTable } from "./plain-table"
import { importHref, type ImportView } from "./search-params"

export const rejectsPerPage = 100

export const rowsOfPeople = "The rows speak of people; the clinic lead can read them."

/** The rows that could not be kept, each as the extract had it, with a reason a clerk can act on. */
export function RejectedRows(props: {
  caller: Caller
  entry: ImportEntry
  view: ImportView
  reasons: readonly { file: string; code: string; rows: number }[]
  /** One more than a page holds when there are more. */
  rows: readonly RejectedLine[]
  /** Whether the person may read rows as the extract had them; if not, only how many there are. */
  mayReadRows: boolean
}) {
  const { caller, entry, view, reasons } = props
  const total = reasons.reduce((sum, reason) => sum + reason.rows, 0)
  const rows = props.rows.slice(0, rejectsPerPage)
  const files = [...new Set(reasons.map((reason) => reason.file))]
  const last = rows.at(-1)
  return (
    <Theme title="Rejected rows" id="rejects" note={count(total)}>
      {total === 0 ? <p className="soft">No row was rejected.</p> : null}
      {total > 0 && !props.mayReadRows ? <p className="soft">{rowsOfPeople}</p> : null}
      {total === 0 || !props.mayReadRows ? null : (
        <>
          <div className={styles.tools}>
            <FileChoice entry={entry} view={view} files={files} reasons={reasons} />
            <ListDownload
              caller={caller}
              needs="imports.rows"
              place="imports"
              href={`/api/imports/${entry.id}/rejects`}
            >
              Download as CSV
            </ListDownload>
          </div>
          <PlainTable
            caption="Rejected rows"
            columns={[
              { head: "Line" },
              { head: "Column" },
              { head: "Value", isLong: true },
              { head: "Reason", isLong: true, label: "" },
              { head: "As the extract had it", isLong: true, label: "row:" },
            ]}
            rows={rows.map((row) => ({
              key: String(row.id),
              cells: [
                <span key="line" id={`${row.file}-${row.line}`}>
                  {row.file} {row.line}
                </span>,
                row.column ?? <span className="soft">the whole row</span>,
                row.value === null ? <span className="soft">empty</span> : short(row.value),
                row.message,
                <code key="original" className={styles.original}>
                  {short(row.original)}
                </code>,
              ],
            }))}
          />
          {props.rows.length > rejectsPerPage && last ? (
            <p className={styles.more}>
              <Link href={`${importHref(entry.id, { ...view, after: last.id })}#rejects`} prefetch={false}>
                Further rejected rows
              </Link>
            </p>
          ) : null}
        </>
      )}
    </Theme>
  )
}

function FileChoice(props: {
  entry: ImportEntry
  view: ImportView
  files: readonly string[]
  reasons: readonly { file: string; rows: number }[]
}) {
  const { entry, view, files } = props
  const rowsOf = (file: string) =>
    props.reasons.filter((reason) => reason.file === file).reduce((sum, reason) => sum + reason.rows, 0)
  return (
    <ul className={styles.choice} aria-label="Files">
      <li>
        <Link href={`${importHref(entry.id)}#rejects`} aria-current={view.file === null ? "true" : undefined}>
          every file
        </Link>
      </li>
      {files.map((file) => (
        <li key={file}>
          <Link
            href={`${importHref(entry.id, { file })}#rejects`}
            aria-current={view.file === file ? "true" : undefined}
          >
            {file} {count(rowsOf(file))}
          </Link>
        </li>
      ))}
    </ul>
  )
}

/** A row may be any length; the download has it whole. */
function short(text: string): string {
  return text.length > 240 ? `${text.slice(0, 240)} ...` : text
}
