import Link from "next/link"
import { count } from "../../../lib/speech/format"
import { Theme } from "../../_ui/screen"
import { PlainTable } from "../imports/plain-table"
import type { AuditAnswers } from "./audit-answers"
import styles from "./audit.module.css"
import { EntryDeed, EntryMatter, EntryPerson } from "./entry-cells"
import { moment } from "./entry-words"
import { auditHref, type AuditView } from "./search-params"

const columns = [
  { head: "When" },
  { head: "Entry", isNumber: true },
  { head: "Who", label: "" },
  { head: "What", isLong: true, label: "" },
  { head: "About", isLong: true },
  { head: "From" },
]

/** The entries of one page, latest first. */
export function AuditEntries({ answers, view }: { answers: AuditAnswers; view: AuditView }) {
  const { entries, timeZone } = answers
  return (
    <Theme title="What was seen and done" id="entries">
      {entries.length === 0 ? <p className={styles.none}>No entry is of that kind.</p> : null}
      {entries.length > 0 ? (
        <PlainTable
          caption="What was seen and done"
          columns={columns}
          rows={entries.map((entry) => ({
            key: String(entry.seq),
            cells: [
              moment(entry.at, timeZone),
              count(Number(entry.seq)),
              <EntryPerson key="who" entry={entry} />,
              <EntryDeed key="what" entry={entry} />,
              <EntryMatter key="about" entry={entry} answers={answers} />,
              entry.address ?? "this machine",
            ],
          }))}
        />
      ) : null}
      <nav aria-label="Pages of the log" className={styles.ways}>
        {view.before === null ? null : (
          <Link href={auditHref({ ...view, before: null })} prefetch={false}>
            Latest
          </Link>
        )}
        {answers.hasOlder ? (
          <Link href={auditHref({ ...view, before: Number(entries.at(-1)?.seq ?? 0) })} prefetch={false}>
            Older
          </Link>
        ) : null}
      </nav>
    </Theme>
  )
}
