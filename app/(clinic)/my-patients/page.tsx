import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen } from "../../_ui/screen"
import { EmptyClinic } from "../empty-clinic"
import { chooseMonth, underSettingsThen } from "../months"
import { peopledSnapshot } from "../snapshot"
import { Changes } from "./changes"
import { ChooseClinician } from "./choose-clinician"
import { MyPatientsAside } from "./my-patients-aside"
import { myPatientsAnswers, whoseAnswers } from "./my-patients-answers"
import { NextVisits } from "./next-visits"
import { parseMyPatientsView } from "./search-params"
import { UrgentPeople } from "./urgent-people"

export const metadata: Metadata = { title: "My patients" }

export default async function MyPatientsPage(props: PageProps<"/my-patients">) {
  const caller = await requireScreenUser("people.see")
  const view = parseMyPatientsView(await props.searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const { panels, whose } = await whoseAnswers({ caller, view, chosen })
  if (!whose) return <ChooseClinician {...{ caller, panels, view, snapshot, chosen }} />
  const clinician = whose.panel.clinician_id
  const answers = await myPatientsAnswers({ clinician, view, chosen, now: new Date() })
  const people = new Set(
    [...answers.urgent, ...answers.visits, ...answers.changes].map((one) => one.public_id),
  )
  await recordedOnce(caller, { action: "patients.list", object: "own patients", people: [...people] })
  return (
    <Screen aside={<MyPatientsAside {...{ answers, panels, whose, view, chosen, snapshot }} />}>
      <UrgentPeople urgent={answers.urgent} settings={snapshot.settings} />
      <NextVisits {...{ answers, chosen, snapshot }} />
      <Changes {...{ answers, whose, view, chosen, snapshot }} />
    </Screen>
  )
}
