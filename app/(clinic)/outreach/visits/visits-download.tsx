import type { Caller } from "../../../../lib/access/caller"
import { counted } from "../../../../lib/speech/format"
import { hrefOf } from "../../../_ui/href"
import { ListDownload } from "../../list-download"
import type { VisitsView } from "./search-params"
import styles from "./visits.module.css"
import type { VisitsAnswers } from "./visits-answers"

/** The visits shown as a file; nothing where nobody is booked. */
export function VisitsDownload(props: { caller: Caller; answers: VisitsAnswers; view: VisitsView }) {
  const { caller, answers, view } = props
  const rows = answers.sheets.reduce((sum, sheet) => sum + sheet.rows.length, 0)
  if (rows === 0) return null
  const href = hrefOf("/api/outreach/visits", { on: answers.on, clinician: view.clinician })
  return (
    <div className={styles.file}>
      <ListDownload caller={caller} needs="people.export" href={href} place="visits">
        Download {counted(rows, "visit", "visits")}
      </ListDownload>
    </div>
  )
}
