"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { prove } from "../../../lib/auth/prove"
import { store } from "../../../lib/store/client"
import { siteKey } from "../../../lib/store/secrets"
import { placeHref } from "../../_http/prove"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"

export type ProveState = { problem: string | null }

const Typed = z.string().min(1).max(1000)

/** Takes the proof and leads back to where it was asked for. */
export async function giveProof(_before: ProveState, form: FormData): Promise<ProveState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const typed = Typed.safeParse(form.get("proof"))
  if (!typed.success) return { problem: "A code or the password is needed." }
  const key = siteKey(site().dataDir)
  const answer = await prove(store(), { caller, typed: typed.data, key, now: new Date() })
  if (answer === "wrong") return { problem: "It is not right, or the code was used before." }
  if (answer === "too-many") return { problem: "After so many attempts the next is taken in a minute." }
  redirect(placeHref(form.get("to")))
}
