import type { Metadata } from "next"
import { day } from "../../../../lib/speech/format"
import { recordedOnce } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen } from "../../../_ui/screen"
import { EmptyClinic } from "../../empty-clinic"
import { peopledSnapshot } from "../../snapshot"
import { NobodyBooked } from "./nobody-booked"
import { parseVisitsView } from "./search-params"
import { VisitSheetTable } from "./visit-sheet-table"
import { VisitsAside } from "./visits-aside"
import { VisitsDownload } from "./visits-download"
import styles from "./visits.module.css"
import { visitsAnswers } from "./visits-answers"

export const metadata: Metadata = { title: "Visits" }

export default async function VisitsPage(props: PageProps<"/outreach/visits">) {
  const caller = await requireScreenUser("outreach.work")
  const view = parseVisitsView(await props.searchParams)
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const answers = await visitsAnswers({ view, now: new Date() })
  const people = new Set(answers.sheets.flatMap(({ rows }) => rows.map(({ visit }) => visit.public_id)))
  await recordedOnce(caller, { action: "visits.list", people: [...people], detail: { on: answers.on } })
  return (
    <Screen aside={<VisitsAside answers={answers} view={view} snapshot={snapshot} />}>
      {answers.sheets.map((sheet) => (
        <VisitSheetTable key={sheet.id} sheet={sheet} on={answers.on} snapshot={snapshot} />
      ))}
      {answers.sheets.length === 0 ? <NobodyBooked answers={answers} /> : null}
      <VisitsDownload caller={caller} answers={answers} view={view} />
      <p className={styles.foot}>
        Reasons by the data up to {day(snapshot.runningAsOf)}. Clinicians decide; local policy applies.
      </p>
    </Screen>
  )
}
