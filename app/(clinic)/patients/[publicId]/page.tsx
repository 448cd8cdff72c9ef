import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { may } from "../../../../lib/access/permissions"
import { plainToday } from "../../../../lib/domain/plain-date"
import { casesOfPeople } from "../../../../lib/store/case-list"
import { store } from "../../../../lib/store/client"
import { callerScope } from "../../../_http/ask"
import { recordedOnce } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { auditHref } from "../../audit/search-params"
import { EmptyClinic } from "../../empty-clinic"
import { chooseMonth, monthChoices, underSettingsThen } from "../../months"
import { currentSnapshot } from "../../snapshot"
import { clinicTimeZone } from "../../time-zone"
import { patientHref } from "../search-params"
import { Cautions } from "./cautions"
import { ClassGuidance } from "./class-guidance"
import { Decisions } from "./decisions"
import { decisionsToday } from "./decisions-today"
import { DietPart } from "./diet-part"
import { Identity } from "./identity"
import { KidneyOutlook } from "./kidney-outlook"
import { Note } from "./note"
import { patientAnswers, survivorOf } from "./patient-answers"
import styles from "./patient.module.css"
import { parsePatientView, PublicId } from "./search-params"
import { Resistance } from "./resistance"
import { Standings } from "./standings"
import { TimeLine } from "./time-line"
import { ToContact } from "./to-contact"
import { refuseUnknown } from "./refuse-unknown"

// The title names nobody: it stands in histories and window lists.
export const metadata: Metadata = { title: "Patient" }

export default async function PatientPage(props: PageProps<"/patients/[publicId]">) {
  const caller = await requireScreenUser("people.see")
  const current = await currentSnapshot()
  if (!current) return <EmptyClinic />
  const publicId = PublicId.safeParse((await props.params).publicId)
  if (!publicId.success) return refuseUnknown(caller, null)
  const chosen = chooseMonth(current, parsePatientView(await props.searchParams).month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await patientAnswers(snapshot, publicId.data, chosen.asOf)
  if (!answers) {
    const survivor = await survivorOf(publicId.data)
    if (survivor === null) return refuseUnknown(caller, publicId.data)
    redirect(patientHref(survivor, chosen.param))
  }
  const { person, line, held, behind } = answers
  await recordedOnce(caller, { action: "patient.open", people: [person.public_id] })
  // What is being done and decided is known of today alone.
  const toContact =
    chosen.isRunning && may(caller, "outreach.work") ? await caseToday(person.public_id) : null
  const about = { publicId: person.public_id, asOf: chosen.asOf, standings: held.standings, caller }
  const decided = chosen.isRunning ? await decisionsToday(about) : null
  const months = monthChoices(snapshot, (month) => patientHref(person.public_id, month))
  return (
    <div className={styles.patient}>
      <Identity
        person={person}
        facts={held.evidence}
        allergies={answers.allergies}
        chosen={chosen}
        months={months}
        isClosed={current.closed.some((one) => one.asOf === chosen.asOf)}
        auditHref={may(caller, "audit.see") ? auditHref({ patient: person.public_id }) : null}
        enterHref={may(caller, "readings.enter") ? `/patients/${person.public_id}/enter` : null}
        recordHref={may(caller, "records.manage") ? `/patients/${person.public_id}/record` : null}
      />
      <Note {...{ answers, asOf: chosen.asOf, isRunning: chosen.isRunning }} settings={snapshot.settings} />
      <div className={styles.body}>
        <div className={styles.first}>
          <Cautions cautions={held.cautions} />
          {toContact === null ? null : (
            <ToContact {...toContact} behind={behind} settings={snapshot.settings} />
          )}
        </div>
        <div className={styles.line}>
          <TimeLine person={person} facts={line} asOf={chosen.asOf} settings={snapshot.settings} />
          <KidneyOutlook person={person} facts={held.evidence} />
          <DietPart
            person={person}
            records={line.diet}
            facts={held.evidence}
            behind={behind}
            {...answers.diet}
          />
          <Resistance holds={held.resistance} behind={behind} />
          <ClassGuidance statements={answers.guidance} courses={line.courses} behind={behind} />
          {decided === null ? null : (
            <Decisions
              {...{ publicId: person.public_id, caller, ...decided, asOf: chosen.asOf, line }}
              months={snapshot.settings["decisions.months"]}
            />
          )}
        </div>
        <Standings person={person} held={held} settings={snapshot.settings} />
      </div>
    </div>
  )
}

async function caseToday(publicId: string) {
  const [cases, timeZone] = await Promise.all([
    casesOfPeople(store(), { scope: await callerScope(), publicIds: [publicId] }),
    clinicTimeZone(),
  ])
  const [one] = cases
  return one === undefined ? null : { one, on: plainToday(new Date(), timeZone) }
}
