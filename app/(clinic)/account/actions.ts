"use server"

import { headers } from "next/headers"
import { revalidatePath } from "next/cache"
import { redirect } from "next/navigation"
import { z } from "zod"
import { hashPassword } from "../../../lib/auth/password-hash"
import { passwordProblem } from "../../../lib/auth/password-rules"
import { checkPassword } from "../../../lib/auth/prove"
import { renewRecoveryCodes } from "../../../lib/auth/second-factor"
import { readEnvironment } from "../../../lib/env"
import { storePasswordHash } from "../../../lib/store/accounts"
import { changeAndRecord } from "../../../lib/store/audit"
import { actorOf } from "../../../lib/store/audit-actors"
import { store } from "../../../lib/store/client"
import { endOwnSession } from "../../../lib/store/own-sessions"
import { endSessionsOf } from "../../../lib/store/sessions"
import { afterSignOut } from "../../_http/provider"
import { formField } from "../../_http/form-field"
import { requireProven } from "../../_http/prove"
import { recorded } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { clearSessionCookie } from "../../_http/session-cookie"

export type PasswordState = { problem: string | null; isDone: boolean }
export type CodesState = { codes: readonly string[] }

const Password = z.string().max(1000)
const SessionId = z.string().regex(/^[0-9a-f]{64}$/)

/** Ends one of the person's own sessions. */
export async function endOne(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const id = formField(SessionId, form.get("session"))
  await endOwnSession(store(), { userId: caller.userId, id, by: actorOf(caller), now: new Date() })
  revalidatePath("/account")
}

/** Ends every session of the person, this one too. */
export async function signOutEverywhere(): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  await endSessionsOf(store(), { userId: caller.userId, reason: "signed out everywhere", now: new Date() })
  await clearSessionCookie()
  redirect(await afterSignOut(caller))
}

/** Changes the password, which the one before has to vouch for; the other sessions end. */
export async function changePassword(_before: PasswordState, form: FormData): Promise<PasswordState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  if (caller.isDemo) return failed("An invented person has no password.")
  const old = Password.safeParse(form.get("old"))
  const fresh = Password.safeParse(form.get("fresh"))
  if (!old.success || !fresh.success) return failed("A password has at most 128 characters.")
  const { userId } = caller
  const now = new Date()
  const proof = await checkPassword(store(), { userId, password: old.data, now })
  if (proof !== "right") await recorded(caller, { action: "identity.prove", outcome: "refused" })
  if (proof === "too-many") return failed("After so many attempts the next is taken in a minute.")
  if (proof === "wrong") return failed("The present password is not right.")
  const clinic = await store().clinic.findUnique({ where: { id: 1 } })
  const problem = await passwordProblem(fresh.data, {
    words: [clinic?.name ?? "", caller.name, caller.userName],
    breachedHashes: readEnvironment().breachedHashes,
  })
  if (problem) return failed(problem)
  const passwordHash = await hashPassword(fresh.data)
  await changeAndRecord(
    store(),
    (transaction) => storePasswordHash(transaction, { userId, passwordHash, now }),
    () => ({ by: actorOf(caller), action: "password.change", object: "user", objectId: userId }),
  )
  await endSessionsOf(store(), { userId, reason: "password changed", except: caller.session.id, now })
  revalidatePath("/account")
  return { problem: null, isDone: true }
}

/** Makes ten recovery codes in place of those before; they show once. */
export async function makeCodes(_before: CodesState, _form: FormData): Promise<CodesState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  if (caller.isDemo) return { codes: [] }
  requireProven(caller, "account")
  const { userId } = caller
  const codes = await changeAndRecord(
    store(),
    (transaction) => renewRecoveryCodes(transaction, userId),
    () => ({
      ...{ by: actorOf(caller), action: "factor.change", object: "user", objectId: userId },
      detail: { what: "recovery codes" },
    }),
  )
  return { codes }
}

function failed(problem: string): PasswordState {
  return { problem, isDone: false }
}
