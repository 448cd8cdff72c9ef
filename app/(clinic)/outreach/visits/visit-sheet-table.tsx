import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { counted, day, dayInFull, weekday } from "../../../../lib/speech/format"
import { HeadRow } from "../../../_ui/table-head"
import { VisitTableRow } from "./visit-table-row"
import type { VisitSheet } from "./visit-sheets"
import styles from "./visits.module.css"

const heads = ["Time", "Person", "At the visit", "To know"] as const

/** The visits of one clinician. On paper its head stands on each of its sheets, with the clinic and the day. */
export function VisitSheetTable(props: { sheet: VisitSheet; on: string; snapshot: SnapshotMeta }) {
  const { sheet, on, snapshot } = props
  const titleId = `sheet-${sheet.id}`
  return (
    <section className={styles.sheet} aria-labelledby={titleId}>
      <div className={styles.head}>
        <h2 id={titleId}>{sheet.clinician}</h2>
        <p>{counted(sheet.rows.length, "visit", "visits")}</p>
      </div>
      <table className={styles.table} role="table" aria-labelledby={titleId}>
        <thead role="rowgroup">
          <tr className={styles.onPaper}>
            <th colSpan={heads.length}>
              <strong>{sheet.clinician}</strong> {weekday(on)} {dayInFull(on)}. {snapshot.clinicName}. Reasons
              by the data up to {day(snapshot.runningAsOf)}.
            </th>
          </tr>
          <HeadRow heads={heads} />
        </thead>
        <tbody role="rowgroup">
          {sheet.rows.map((row, index) => (
            <VisitTableRow
              key={`${row.visit.public_id} ${index}`}
              row={row}
              sheet={sheet}
              settings={snapshot.settings}
            />
          ))}
        </tbody>
      </table>
    </section>
  )
}
