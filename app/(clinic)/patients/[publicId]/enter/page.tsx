import type { Metadata } from "next"
import Link from "next/link"
import { plainToday } from "../../../../../lib/domain/plain-date"
import { mayWithdraw } from "../../../../../lib/jobs/enter-by-hand"
import { store } from "../../../../../lib/store/client"
import { findEntryPerson, listHandEntries } from "../../../../../lib/store/hand-entries"
import { callerScope } from "../../../../_http/ask"
import { recordedOnce } from "../../../../_http/recorded"
import { requireScreenUser } from "../../../../_http/require-user"
import { AsidePart, Screen, ScreenTitle, Theme } from "../../../../_ui/screen"
import { clinicTimeZone } from "../../../time-zone"
import { refuseUnknown } from "../refuse-unknown"
import { PublicId } from "../search-params"
import { DietForm } from "./diet-form"
import { Entries } from "./entries"
import { LogForm } from "./log-form"

// The title names nobody: it stands in histories and window lists.
export const metadata: Metadata = { title: "Enter readings" }

export default async function EnterPage({ params }: PageProps<"/patients/[publicId]/enter">) {
  const caller = await requireScreenUser("readings.enter")
  const publicId = PublicId.safeParse((await params).publicId)
  const of = { scope: await callerScope(), publicId: publicId.data ?? "" }
  const person = publicId.success ? await findEntryPerson(store(), of) : null
  if (!publicId.success || person === null) return refuseUnknown(caller, publicId.data ?? null)
  await recordedOnce(caller, { action: "patient.open", object: "entry by hand", people: [publicId.data] })
  const [timeZone, entries] = await Promise.all([clinicTimeZone(), listHandEntries(store(), of)])
  const today = plainToday(new Date(), timeZone)
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Enter readings" size="small">
            <Link href={`/patients/${publicId.data}`} prefetch={false}>
              {person.name}
            </Link>
            , number {person.patientId}
          </ScreenTitle>
          <AsidePart>
            <p>
              Held to the limits of an extract and saved as a whole or not at all. Rows are marked as entered
              by hand, with who typed them. A pressure or symptom that worries you is for a clinician now,
              whatever is entered here.
            </p>
          </AsidePart>
        </>
      }
    >
      <Theme title="Home-pressure log" id="log" note="mmHg">
        <LogForm publicId={publicId.data} today={today} />
      </Theme>
      <Theme title="Diet record" id="diet">
        <DietForm publicId={publicId.data} today={today} />
      </Theme>
      <Theme title="Entered by hand" id="entered">
        <Entries
          {...{ entries, timeZone, publicId: publicId.data }}
          mayWithdraw={(entry) => mayWithdraw(caller, entry)}
        />
      </Theme>
    </Screen>
  )
}
