import Link from "next/link"
import type { Settings } from "../../../../lib/domain/settings"
import { inClinicsOrder } from "../../../../lib/outreach/between-two"
import type { BookedVisit } from "../../../../lib/questions/booked-visits"
import { day, sentenceCase } from "../../../../lib/speech/format"
import { actorOf, reasonParts } from "../../../../lib/speech/outreach-words"
import { fullName } from "../../../../lib/speech/person-name"
import { isUrgent, type VisitRow, type VisitSheet } from "./visit-sheets"
import { toKnow, urgentWords } from "./visit-words"
import styles from "./visits.module.css"

type RowProps = { row: VisitRow; sheet: VisitSheet; settings: Settings }

/** One visit: who comes, what is to be done by whom, and what to know of the person. */
export function VisitTableRow({ row, sheet, settings }: RowProps) {
  const { visit } = row
  const kind = [visit.kind, visit.status === "booked" ? null : visit.status].filter(Boolean).join(", ")
  return (
    <tr role="row" className={isUrgent(row) ? styles.urgent : undefined}>
      <td role="cell" className={styles.time}>
        {visit.starts_at ?? "No time"} <small>{kind}</small>
      </td>
      <th scope="row" role="rowheader">
        <Who visit={visit} sheet={sheet} />
      </th>
      <td role="cell">
        {isUrgent(row) ? <Urgent row={row} settings={settings} /> : null}
        <Reasons row={row} settings={settings} />
      </td>
      <td role="cell" className={styles.soft}>
        {toKnow(row).map((words) => (
          <p key={words}>{words}</p>
        ))}
      </td>
    </tr>
  )
}

function Who({ visit, sheet }: { visit: BookedVisit; sheet: VisitSheet }) {
  const own = visit.own_clinician_name
  const facts = [
    visit.birth_date === null ? "birth date not on record" : `born ${day(visit.birth_date)}`,
    visit.site,
    own === null || own === sheet.clinician ? null : `usually seen by ${own}`,
  ]
  return (
    <>
      <Link href={`/patients/${visit.public_id}`} prefetch={false} className={styles.name}>
        {fullName(visit)}
      </Link>
      <p className={styles.soft}>{sentenceCase(facts.filter(Boolean).join(", "))}</p>
    </>
  )
}

function Urgent({ row, settings }: { row: VisitRow; settings: Settings }) {
  return (
    <p className={styles.urgentWords}>
      <strong>
        <span aria-hidden="true">! </span>Urgent.
      </strong>{" "}
      {urgentWords(row, settings)}
    </p>
  )
}

function Reasons({ row: { known }, settings }: { row: VisitRow; settings: Settings }) {
  const reasons = known === null ? [] : inClinicsOrder(known.case.reasons, settings)
  if (reasons.length === 0) return <p className={styles.soft}>No reason on the list</p>
  return (
    <ul>
      {reasons.map((held) => {
        const { name, detail } = reasonParts(held, settings)
        const actor = actorOf(held)
        return (
          <li key={held.reason} className={styles.reason}>
            <span aria-hidden="true" className={styles.box} />
            <span>
              <strong>{name}</strong> {detail}
              {actor === null ? null : <span className={styles.soft}> ({actor})</span>}
            </span>
          </li>
        )
      })}
    </ul>
  )
}
