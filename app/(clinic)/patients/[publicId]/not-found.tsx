import Link from "next/link"
import { may } from "../../../../lib/access/permissions"
import { isWhole } from "../../../../lib/access/scope"
import { callerScope } from "../../../_http/ask"
import { currentCaller } from "../../../_http/require-user"
import { Notice } from "../../../_ui/notice"
import { EmergencyLink } from "./emergency-link"

/** The same words for a person beyond the own panel and for nobody: an address does not tell who is a patient. */
export default async function PatientNotFound() {
  const caller = await currentCaller()
  const isLimited = caller !== null && !isWhole(await callerScope())
  return (
    <Notice title="There is no such patient here.">
      <p>
        The address may be from before an import, or mistyped. <Link href="/patients">Patients</Link> shows
        everyone whom this account sees.
      </p>
      {isLimited && may(caller, "emergency.open") ? (
        <p>
          This account sees a part of the clinic. In an emergency <EmergencyLink /> opens all of it for an
          hour.
        </p>
      ) : null}
    </Notice>
  )
}
