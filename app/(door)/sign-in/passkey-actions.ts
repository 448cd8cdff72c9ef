"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { signInWithPasskey } from "../../../lib/auth/passkey-sign-in"
import { askForSignature } from "../../../lib/auth/passkeys"
import { store } from "../../../lib/store/client"
import { endSession } from "../../../lib/store/sessions"
import { clientAddress } from "../../_http/client-address"
import { bound, boundToken, passkeySite } from "../../_http/passkeys"
import { assertSameOrigin } from "../../_http/same-origin"
import { readSessionCookie, writeSessionCookie } from "../../_http/session-cookie"

/** What any passkey of this site may sign to come in. */
export async function askForPasskey() {
  assertSameOrigin(await headers())
  const asked = { purpose: "sign-in", userId: null, site: passkeySite(), now: new Date() } as const
  return bound(await askForSignature(store(), asked))
}

/** Comes in by what a passkey has signed, without a user name or a password. */
export async function signInByPasskey(answer: unknown): Promise<{ problem: string }> {
  const sent = await headers()
  assertSameOrigin(sent)
  const now = new Date()
  const about = { agent: sent.get("user-agent") ?? "", address: await clientAddress(), now }
  const signed = { answer, token: await boundToken(), site: passkeySite() }
  const token = await signInWithPasskey(store(), { ...signed, ...about })
  if (token === null) return { problem: "This passkey does not sign in here." }
  const before = await readSessionCookie()
  if (before !== null) await endSession(store(), { token: before, reason: "signed in anew", now })
  await writeSessionCookie(token)
  redirect("/sign-in")
}
