import type { Metadata } from "next"
import { caseWorkers } from "../../../lib/store/case-workers"
import { store } from "../../../lib/store/client"
import { listViews } from "../../../lib/store/outreach-views"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { peopledSnapshot } from "../snapshot"
import { HowOrdered } from "./how-ordered"
import { OutreachAfter, OutreachAside } from "./outreach-aside"
import { outreachAnswers } from "./outreach-answers"
import { OutreachFilters } from "./outreach-filters"
import { OutreachRows } from "./outreach-rows"
import { parseOutreachView } from "./search-params"

export const metadata: Metadata = { title: "Outreach" }

export default async function OutreachPage(props: PageProps<"/outreach">) {
  const caller = await requireScreenUser("outreach.work")
  const view = parseOutreachView(await props.searchParams)
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const [answers, views, workers] = await Promise.all([
    outreachAnswers({ snapshot, caller, view, now: new Date() }),
    listViews(store(), caller.userId),
    caseWorkers(store(), { isDemo: caller.isDemo }),
  ])
  const people = [...answers.urgent, ...answers.others].map(({ one }) => one.public_id)
  await recordedOnce(caller, { action: "cases.list", people })
  return (
    <Screen aside={<OutreachAside answers={answers} />} after={<OutreachAfter view={view} views={views} />}>
      <OutreachFilters answers={answers} view={view} settings={snapshot.settings} />
      <OutreachRows
        answers={answers}
        view={view}
        settings={snapshot.settings}
        caller={caller}
        workers={workers}
      />
      <HowOrdered settings={snapshot.settings} />
    </Screen>
  )
}
