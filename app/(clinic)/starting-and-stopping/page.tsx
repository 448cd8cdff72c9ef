import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { chooseMonth, underSettingsThen } from "../months"
import { peopledSnapshot } from "../snapshot"
import { GroupCautions, Sources } from "./group-cautions"
import { parseStartingView } from "./search-params"
import { StartingAside } from "./starting-aside"
import { startingAnswers } from "./starting-answers"
import { StartingList } from "./starting-list"

export const metadata: Metadata = { title: "Starting and stopping" }

export default async function StartingAndStoppingPage(props: PageProps<"/starting-and-stopping">) {
  const caller = await requireScreenUser("people.see")
  const view = parseStartingView(await props.searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await startingAnswers({ view, chosen })
  const people = answers.people.map((person) => person.public_id)
  await recordedOnce(caller, { action: "patients.list", object: "starting and stopping", people })
  return (
    <Screen aside={<StartingAside {...{ answers, view, chosen, snapshot }} />}>
      <GroupCautions group={view.group} />
      <StartingList {...{ answers, view, chosen }} />
      <Sources />
    </Screen>
  )
}
