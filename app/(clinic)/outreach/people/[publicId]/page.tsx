import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { fullName } from "../../../../../lib/speech/person-name"
import { caseWorkers } from "../../../../../lib/store/case-workers"
import { store } from "../../../../../lib/store/client"
import { recordedOnce } from "../../../../_http/recorded"
import { requireScreenUser } from "../../../../_http/require-user"
import { Screen, Theme } from "../../../../_ui/screen"
import { EmptyClinic } from "../../../empty-clinic"
import { survivorOf } from "../../../patients/[publicId]/patient-answers"
import { refuseUnknown } from "../../../patients/[publicId]/refuse-unknown"
import { PublicId } from "../../../patients/[publicId]/search-params"
import { currentSnapshot } from "../../../snapshot"
import { CaseForms } from "../../case-forms"
import { formCase } from "../../form-case"
import { CaseHistory } from "./case-history"
import { CaseStanding } from "./case-standing"
import { personAnswers } from "./person-answers"
import { PersonAside } from "./person-aside"
import { PersonReasons } from "./person-reasons"

// The title names nobody: it stands in histories and window lists.
export const metadata: Metadata = { title: "Person to contact" }

export default async function PersonToContactPage(props: PageProps<"/outreach/people/[publicId]">) {
  const caller = await requireScreenUser("outreach.work")
  const snapshot = await currentSnapshot()
  if (!snapshot) return <EmptyClinic />
  const publicId = PublicId.safeParse((await props.params).publicId)
  if (!publicId.success) return refuseUnknown(caller, null)
  const answers = await personAnswers(snapshot, publicId.data, new Date())
  if (!answers) {
    const survivor = await survivorOf(publicId.data)
    if (survivor === null) return refuseUnknown(caller, publicId.data)
    redirect(`/outreach/people/${survivor}`)
  }
  const { person, shown, today, timeZone } = answers
  await recordedOnce(caller, { action: "patient.open", object: "case", people: [person.public_id] })
  return (
    <Screen aside={<PersonAside person={person} shown={shown} />}>
      {shown === null ? (
        <Theme title="Reasons to contact" id="reasons">
          <p className="soft">There has been no reason to contact this person.</p>
        </Theme>
      ) : (
        <>
          <PersonReasons shown={shown} settings={snapshot.settings} />
          <CaseStanding shown={shown} settings={snapshot.settings} caller={caller} today={today}>
            <CaseForms
              of={formCase({
                ...{ one: shown.kept.one, lastAct: shown.kept.lastAct, caller, on: today },
                ...{ name: fullName(person), preferred: person.preferred_contact },
              })}
              workers={await caseWorkers(store(), { isDemo: caller.isDemo })}
            />
          </CaseStanding>
          <CaseHistory history={shown.kept.history} settings={snapshot.settings} timeZone={timeZone} />
        </>
      )}
    </Screen>
  )
}
