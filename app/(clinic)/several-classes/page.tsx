import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { chooseMonth, underSettingsThen } from "../months"
import { peopledSnapshot } from "../snapshot"
import { BeforeAnother, Sources } from "./before-another"
import { parseSeveralClassesView } from "./search-params"
import { SeveralClassesAside } from "./several-classes-aside"
import { severalClassesAnswers } from "./several-classes-answers"
import { SeveralClassesList } from "./several-classes-list"

export const metadata: Metadata = { title: "Several classes" }

export default async function SeveralClassesPage(props: PageProps<"/several-classes">) {
  const caller = await requireScreenUser("people.see")
  const view = parseSeveralClassesView(await props.searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await severalClassesAnswers({ view, chosen })
  const people = answers.people.map((person) => person.public_id)
  await recordedOnce(caller, { action: "patients.list", object: "several classes", people })
  return (
    <Screen aside={<SeveralClassesAside {...{ answers, view, chosen, snapshot }} />}>
      <BeforeAnother />
      <SeveralClassesList {...{ answers, view, chosen }} />
      <Sources />
    </Screen>
  )
}
