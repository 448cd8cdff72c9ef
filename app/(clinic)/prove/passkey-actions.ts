"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { proveWithPasskey } from "../../../lib/auth/passkey-sign-in"
import { askForSignature } from "../../../lib/auth/passkeys"
import { store } from "../../../lib/store/client"
import { bound, boundToken, passkeySite } from "../../_http/passkeys"
import { placeHref } from "../../_http/prove"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"

/** What one of the person's own passkeys may sign to prove who they are. */
export async function askForProof() {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const asked = { purpose: "prove", userId: caller.userId, site: passkeySite(), now: new Date() } as const
  return bound(await askForSignature(store(), asked))
}

/** Takes what a passkey has signed as the proof, and leads back to where it was asked for. */
export async function giveSignedProof(to: unknown, answer: unknown): Promise<{ problem: string }> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const signed = { answer, token: await boundToken(), site: passkeySite(), now: new Date() }
  if (!(await proveWithPasskey(store(), { ...signed, caller })))
    return { problem: "This passkey proves nothing here." }
  redirect(placeHref(to))
}
