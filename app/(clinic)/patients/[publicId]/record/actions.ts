"use server"

import { headers } from "next/headers"
import { refresh } from "next/cache"
import { z } from "zod"
import { actorOf } from "../../../../../lib/store/audit-actors"
import { store } from "../../../../../lib/store/client"
import { ErasureWords, requestErasure, withdrawErasure as withdraw } from "../../../../../lib/store/erasures"
import { formField } from "../../../../_http/form-field"
import { requireProven } from "../../../../_http/prove"
import { requireScreenUser } from "../../../../_http/require-user"
import { assertSameOrigin } from "../../../../_http/same-origin"
import { readRecordWords } from "./record-answers"

export type ErasureState = { problem: string | null }

const PublicId = z.uuid()

/** Notes that the record is to be erased; the machine's keeper carries it out, with the number typed again. */
export async function askForErasure(_before: ErasureState, form: FormData): Promise<ErasureState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("records.manage")
  const publicId = formField(PublicId, form.get("publicId"))
  requireProven(caller, { recordOf: publicId })
  const said = ErasureWords.safeParse({ reason: form.get("reason"), basis: form.get("basis") })
  if (!said.success)
    return { problem: "A reason of at least ten characters, and what demands it, are needed." }
  const words = await readRecordWords(publicId)
  if (words === null) return { problem: "There is no such patient." }
  const about = { publicId, words, said: said.data, by: actorOf(caller), now: new Date() }
  const { status } = await requestErasure(store(), about)
  refresh()
  return { problem: problems[status] }
}

/** Takes the request back while nothing has been erased. */
export async function withdrawErasure(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("records.manage")
  const publicId = formField(PublicId, form.get("publicId"))
  requireProven(caller, { recordOf: publicId })
  await withdraw(store(), { publicId, by: actorOf(caller), now: new Date() })
  refresh()
}

const problems = {
  asked: null,
  "names-person": "Both are kept for good, so they must not name the person.",
  "asked-before": "This was asked for before.",
} as const
