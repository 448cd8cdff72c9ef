import type { Metadata } from "next"
import Link from "next/link"
import { store } from "../../../../../lib/store/client"
import { findErasure } from "../../../../../lib/store/erasures"
import { requireProven } from "../../../../_http/prove"
import { recordedOnce } from "../../../../_http/recorded"
import { requireScreenUser } from "../../../../_http/require-user"
import { AsidePart, Screen, ScreenTitle, Theme } from "../../../../_ui/screen"
import { instantInFull } from "../../../imports/import-words"
import { clinicTimeZone } from "../../../time-zone"
import { refuseUnknown } from "../refuse-unknown"
import { PublicId } from "../search-params"
import { ErasureForm, ErasureWaiting } from "./erasure"
import { HandOutForm } from "./hand-out-form"
import { HeldFiles } from "./held-files"
import { readRecord } from "./record-answers"

// The title names nobody: it stands in histories and window lists.
export const metadata: Metadata = { title: "Record" }

export default async function RecordPage({ params }: PageProps<"/patients/[publicId]/record">) {
  const caller = await requireScreenUser("records.manage")
  const publicId = PublicId.safeParse((await params).publicId)
  const record = publicId.success ? await readRecord(publicId.data) : null
  if (!publicId.success || !record) return refuseUnknown(caller, publicId.data ?? null)
  requireProven(caller, { recordOf: publicId.data })
  await recordedOnce(caller, { action: "patient.open", object: "record", people: record.people })
  const [timeZone, ...asked] = await Promise.all([clinicTimeZone(), ...record.people.map(erasureOf)])
  const erasure = asked.find((one) => one !== null) ?? null
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Record" size="small">
            <Link href={`/patients/${publicId.data}`}>The patient</Link>
          </ScreenTitle>
          <AsidePart title={record.patientIds.length === 1 ? "Number" : "Numbers, merged"}>
            <p>{record.patientIds.join(", ")}</p>
          </AsidePart>
        </>
      }
    >
      <Theme title="What is held" id="held">
        <HeldFiles files={record.files} />
      </Theme>
      <Theme title="Hand out" id="hand-out">
        <HandOutForm publicId={publicId.data} />
      </Theme>
      <Theme title="Erase" id="erase">
        {erasure === null ? (
          <ErasureForm publicId={publicId.data} />
        ) : (
          <ErasureWaiting
            {...{ publicId: publicId.data, id: erasure.id, reason: erasure.reason }}
            words={`Asked for by ${erasure.askedBy}, ${instantInFull(erasure.askedAt, timeZone)}. Basis: ${erasure.basis}.`}
          />
        )}
      </Theme>
    </Screen>
  )
}

function erasureOf(publicId: string) {
  return findErasure(store(), { publicId })
}
