import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { clinicTimeZone } from "../time-zone"
import { auditAnswers } from "./audit-answers"
import { AuditAside } from "./audit-aside"
import { AuditEntries } from "./audit-entries"
import { AuditFilters } from "./audit-filters"
import { AuditReviewLists } from "./audit-review-lists"
import { parseAuditView } from "./search-params"

export const metadata: Metadata = { title: "Audit log" }

export default async function AuditPage(props: PageProps<"/audit">) {
  const caller = await requireScreenUser("audit.see")
  const view = parseAuditView(await props.searchParams)
  await recordedOnce(caller, {
    action: "audit.open",
    ...(view.patient === null ? {} : { object: "patient", objectId: view.patient }),
  })
  const timeZone = await clinicTimeZone()
  const answers = await auditAnswers({ caller, view, timeZone, now: new Date() })
  return (
    <Screen aside={<AuditAside caller={caller} answers={answers} view={view} />}>
      <AuditFilters answers={answers} view={view} />
      <AuditEntries answers={answers} view={view} />
      {view.patient === null ? <AuditReviewLists answers={answers} /> : null}
    </Screen>
  )
}
