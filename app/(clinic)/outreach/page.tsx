import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { peopledSnapshot } from "../snapshot"
import { outreachAnswers } from "./outreach-answers"
import { OutreachAside } from "./outreach-aside"
import { OutreachRows } from "./outreach-rows"

export const metadata: Metadata = { title: "Outreach" }

export default async function OutreachPage() {
  const caller = await requireScreenUser("outreach.work")
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const answers = await outreachAnswers(snapshot, new Date())
  const rows = [...answers.urgent, ...answers.others]
  await recordedOnce(caller, { action: "cases.list", people: rows.map(({ one }) => one.public_id) })
  return (
    <Screen aside={<OutreachAside answers={answers} />}>
      <OutreachRows answers={answers} settings={snapshot.settings} caller={caller} />
    </Screen>
  )
}
