"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { completeSignIn } from "../../../../lib/auth/complete-sign-in"
import { enrolFactor } from "../../../../lib/auth/enrol-factor"
import { recordFailedCode } from "../../../../lib/auth/failed-code"
import { askForSignature, checkSignature } from "../../../../lib/auth/passkeys"
import { checkFactor } from "../../../../lib/auth/second-factor"
import { store } from "../../../../lib/store/client"
import { endSession } from "../../../../lib/store/sessions"
import { clientAddress } from "../../../_http/client-address"
import { halfSignedIn, type HalfSignedIn } from "../../../_http/half-signed-in"
import { bound, boundToken, passkeySite } from "../../../_http/passkeys"
import { assertSameOrigin } from "../../../_http/same-origin"
import { writeSessionCookie } from "../../../_http/session-cookie"

const Code = z.string().trim().max(60)
const Sealed = z.string().max(200)

export type FactorState = { problem: string | null }

const wrong = { problem: "The code is not right, or was used before." }

/** The second factor: a code of the app, or a recovery code. */
export async function giveCode(_before: FactorState, form: FormData): Promise<FactorState> {
  const half = await requireHalf()
  if (!half.account.hasFactor) redirect("/sign-in/factor")
  const typed = Code.safeParse(form.get("code"))
  if (!typed.success) return wrong
  const { token, account, key } = half
  const now = new Date()
  const answer = await checkFactor(store(), { userId: account.id, typed: typed.data, key, now })
  if (answer !== "right")
    await recordFailedCode(store(), {
      ...{ account, address: await clientAddress(), isSlowed: answer === "too-many" },
    })
  if (answer === "wrong") return wrong
  if (answer === "too-many") {
    await endSession(store(), { token, reason: "too many codes", now })
    redirect("/sign-in")
  }
  await complete(half, "code")
  redirect("/sign-in")
}

/** What one of the person's own passkeys may sign as the second factor. */
export async function askForFactor() {
  const half = await requireHalf()
  const asked = { purpose: "factor", userId: half.account.id, site: passkeySite(), now: new Date() } as const
  return bound(await askForSignature(store(), asked))
}

/** The second factor: what a passkey has signed. */
export async function givePasskey(answer: unknown): Promise<{ problem: string }> {
  const half = await requireHalf()
  const { account } = half
  const signed = { answer, token: await boundToken(), site: passkeySite(), now: new Date() }
  const whose = await checkSignature(store(), { ...signed, purpose: "factor", userId: account.id })
  if (whose === null) {
    await recordFailedCode(store(), { account, address: await clientAddress(), isSlowed: false })
    return { problem: "This passkey is none of this account." }
  }
  await complete(half, "passkey")
  redirect("/sign-in")
}

/** Sets the second factor up at the first sign-in; who has one already gives a code of it instead. */
export async function enrol(_before: FactorState, form: FormData): Promise<FactorState> {
  const half = await requireHalf()
  if (half.account.hasFactor) redirect("/sign-in/factor")
  const code = Code.safeParse(form.get("code"))
  const sealed = Sealed.safeParse(form.get("sealed"))
  if (!code.success || !sealed.success) return wrong
  const asked = { account: half.account, code: code.data, sealed: sealed.data, key: half.key }
  const address = await clientAddress()
  if (!(await enrolFactor(store(), { ...asked, address, now: new Date() }))) {
    await recordFailedCode(store(), { account: half.account, address, isSlowed: false })
    return wrong
  }
  await complete(half, "code")
  redirect("/account")
}

async function requireHalf(): Promise<HalfSignedIn> {
  assertSameOrigin(await headers())
  return (await halfSignedIn()) ?? redirect("/sign-in")
}

async function complete(half: HalfSignedIn, factor: "code" | "passkey"): Promise<void> {
  const { token, account, method } = half
  const agent = (await headers()).get("user-agent") ?? ""
  const about = { agent, address: await clientAddress(), now: new Date() }
  const signIn = { token, account, method, factor, ...about }
  await writeSessionCookie(await completeSignIn(store(), signIn))
}
