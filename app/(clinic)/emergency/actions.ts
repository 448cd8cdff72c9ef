"use server"

import { revalidatePath } from "next/cache"
import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { TypedText } from "../../../lib/domain/typed-text"
import { store } from "../../../lib/store/client"
import { endEmergency, openEmergency } from "../../../lib/store/emergencies"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { patientHref } from "../patients/search-params"

const Reason = TypedText.trim().min(10).max(500)
const Patient = z.uuid().nullable().catch(null)

export type OpenAnswer = { problem: string | null }

/** Opens the whole clinic to the person for an hour, for a reason that is reviewed. */
export async function openForEmergency(_before: OpenAnswer, form: FormData): Promise<OpenAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("emergency.open")
  const reason = Reason.safeParse(form.get("reason"))
  if (!reason.success) return { problem: "A reason of at least ten characters is needed; it is reviewed." }
  await openEmergency(store(), { caller, reason: reason.data, now: new Date() })
  showAnew()
  const patient = Patient.parse(form.get("patient"))
  redirect(patient === null ? "/patients" : patientHref(patient, null))
}

/** The emergency is over before its hour is. */
export async function endOwnEmergency(): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("emergency.open")
  await endEmergency(store(), { caller, now: new Date() })
  showAnew()
  redirect("/")
}

/** The frame around every screen says whether the limits are lifted; it is else kept from one screen to the next. */
function showAnew(): void {
  revalidatePath("/", "layout")
}
