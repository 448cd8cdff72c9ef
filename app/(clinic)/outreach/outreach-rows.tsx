import Link from "next/link"
import type { Caller } from "../../../lib/access/caller"
import type { Settings } from "../../../lib/domain/settings"
import { count, counted } from "../../../lib/speech/format"
import type { CaseWorker } from "../../../lib/store/case-workers"
import { ListKeys } from "../list-keys"
import { NobodyListed } from "./nobody-listed"
import type { OutreachAnswers } from "./outreach-answers"
import { OutreachDownload } from "./outreach-download"
import { OutreachRow } from "./outreach-row"
import styles from "./outreach.module.css"
import { outreachHref, type OutreachView } from "./search-params"

type RowsProps = {
  answers: OutreachAnswers
  view: OutreachView
  settings: Settings
  caller: Caller
  workers: readonly CaseWorker[]
}

/** The urgent rows, then the list of people to contact, each in its order. */
export function OutreachRows({ answers, view, settings, caller, workers }: RowsProps) {
  const { urgent, others, listed, urgentTotal } = answers
  const shown = { settings, caller, workers, on: answers.on, timeZone: answers.timeZone }
  const isUrgentList = view.show === "urgent"
  return (
    <ListKeys>
      {urgent.length > 0 || (isUrgentList && others.length > 0) ? (
        <section aria-labelledby="urgent-title" className={styles.urgentPart}>
          <h2 id="urgent-title" className={styles.partTitle}>
            Urgent: {counted(isUrgentList ? listed.total : urgentTotal, "person", "people")}
          </h2>
          <p className={styles.soft}>{settings["outreach.urgentText"]} They are no rows of the call list.</p>
        </section>
      ) : null}
      {urgent.length > 0 ? (
        <ol className={styles.rows} aria-labelledby="urgent-title">
          {urgent.map((row, index) => (
            <OutreachRow
              key={row.one.id}
              {...shown}
              row={row}
              above={urgent[index - 1] ?? null}
              place={null}
            />
          ))}
        </ol>
      ) : null}
      {urgentTotal > urgent.length ? (
        <p className={styles.ways}>
          <Link href={outreachHref({ ...view, show: "urgent" })} prefetch={false}>
            All {count(urgentTotal)} urgent
          </Link>
        </p>
      ) : null}
      {others.length === 0 ? <NobodyListed answers={answers} view={view} /> : null}
      {others.length > 0 && !isUrgentList ? (
        <h2 id="people-title" className="visually-hidden">
          People to contact
        </h2>
      ) : null}
      {others.length > 0 ? (
        <ol className={styles.rows} aria-labelledby={isUrgentList ? "urgent-title" : "people-title"}>
          {others.map((row, index) => (
            <OutreachRow
              {...shown}
              key={row.one.id}
              row={row}
              above={others[index - 1] ?? urgent.at(-1) ?? null}
              place={isUrgentList ? null : listed.before + index + 1}
            />
          ))}
        </ol>
      ) : null}
      <Ways answers={answers} view={view} />
      {others.length > 0 ? <OutreachDownload caller={caller} view={view} /> : null}
    </ListKeys>
  )
}

/** Which part of the list this page is, and the ways to the rest of it. */
function Ways({ answers, view }: { answers: OutreachAnswers; view: OutreachView }) {
  const { others, listed } = answers
  if (others.length === 0) return null
  const last = listed.before + others.length
  const isByTime = view.show === "closed" || view.show === "closed-itself"
  const goesOn = isByTime ? last : (others.at(-1)?.one.place ?? null)
  return (
    <nav aria-label="Pages of the list" className={styles.ways}>
      <span>
        {count(listed.before + 1)} to {count(last)} of {count(listed.total)}
      </span>
      {view.after === null ? null : (
        <Link href={outreachHref({ ...view, after: null })} prefetch={false}>
          From the first
        </Link>
      )}
      {last < listed.total ? (
        <Link href={outreachHref({ ...view, after: goesOn })} prefetch={false}>
          The next
        </Link>
      ) : null}
    </nav>
  )
}
