"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"
import { formField } from "../../_http/form-field"
import { store } from "../../../lib/store/client"
import { reviewEmergency } from "../../../lib/store/emergencies"
import { requireProven } from "../../_http/prove"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"

const Note = TypedText.trim().min(1).max(500)

export type ReviewAnswer = { problem: string | null }

/** Signs an emergency access off; nobody reviews their own. */
export async function signOff(_before: ReviewAnswer, form: FormData): Promise<ReviewAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("emergency.review")
  requireProven(caller, "emergencies")
  const note = Note.safeParse(form.get("note"))
  if (!note.success) return { problem: "A note is needed." }
  const id = formField(RowNumber, form.get("id"))
  const isDone = await reviewEmergency(store(), { id, caller, note: note.data, now: new Date() })
  if (!isDone) return { problem: "It has been reviewed in the meantime, or is the reviewer's own." }
  refresh()
  return { problem: null }
}
