import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { chooseMonth, underSettingsThen } from "../months"
import { peopledSnapshot } from "../snapshot"
import { BeforeStart, Statements } from "./before-start"
import { ProtectionAside } from "./protection-aside"
import { protectionAnswers } from "./protection-answers"
import { OverduePlans } from "./overdue-plans"
import { protectionDecisions } from "./protection-decisions"
import { ProtectionList } from "./protection-list"
import { parseProtectionView } from "./search-params"

export const metadata: Metadata = { title: "Protection" }

export default async function ProtectionPage(props: PageProps<"/protection">) {
  const caller = await requireScreenUser("people.see")
  const view = parseProtectionView(await props.searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await protectionAnswers({ caller, view, chosen, settings: snapshot.settings })
  const decisions = chosen.isRunning
    ? await protectionDecisions({
        ...{ caller, people: answers.people, settings: snapshot.settings, asOf: chosen.asOf },
      })
    : null
  const people = [...answers.people, ...answers.overdue].map((person) => person.public_id)
  await recordedOnce(caller, { action: "patients.list", object: "protection", people })
  return (
    <Screen aside={<ProtectionAside {...{ answers, view, chosen, snapshot }} />}>
      <BeforeStart />
      <OverduePlans plans={answers.overdue} month={chosen.param} />
      <ProtectionList {...{ answers, decisions, view, chosen }} />
      <Statements statements={answers.statements} />
    </Screen>
  )
}
