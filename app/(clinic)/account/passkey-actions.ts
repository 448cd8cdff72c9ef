"use server"

import { headers } from "next/headers"
import { revalidatePath } from "next/cache"
import { z } from "zod"
import { addNewPasskey, askForNewPasskey } from "../../../lib/auth/passkeys"
import { TypedText } from "../../../lib/domain/typed-text"
import { findAccountById, type Account } from "../../../lib/store/accounts"
import { actorOf } from "../../../lib/store/audit-actors"
import { store } from "../../../lib/store/client"
import { removePasskey, renamePasskey } from "../../../lib/store/passkeys"
import { formField } from "../../_http/form-field"
import { bound, boundToken, passkeySite } from "../../_http/passkeys"
import { requireProven } from "../../_http/prove"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"

const Name = TypedText.trim().min(1).max(60)
const PasskeyId = z.string().regex(/^[A-Za-z0-9_-]{1,1400}$/)

export type PasskeyState = { problem: string | null }

/** What an authenticator is asked for a new passkey; null for an account that has none. */
export async function askToAddPasskey() {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const account = await ownAccount(caller.userId)
  if (!account) return null
  requireProven(caller, "account")
  return bound(await askForNewPasskey(store(), { account, site: passkeySite(), now: new Date() }))
}

/** Keeps what the authenticator has made, under a name. */
export async function addPasskey(answer: unknown, name: unknown): Promise<PasskeyState> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  const { userId } = caller
  const named = Name.safeParse(name)
  if (!named.success || !(await ownAccount(userId))) return { problem: "The passkey was not added." }
  requireProven(caller, "account")
  const made = { answer, token: await boundToken(), userId, name: named.data, by: actorOf(caller) }
  const isAdded = await addNewPasskey(store(), { ...made, site: passkeySite(), now: new Date() })
  if (!isAdded) return { problem: "The passkey was not added." }
  revalidatePath("/account")
  return { problem: null }
}

/** Gives one of the person's own passkeys another name. */
export async function rename(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  requireProven(caller, "account")
  const name = Name.safeParse(form.get("name"))
  const id = formField(PasskeyId, form.get("passkey"))
  if (name.success)
    await renamePasskey(store(), { userId: caller.userId, id, name: name.data, by: actorOf(caller) })
  revalidatePath("/account")
}

/** Takes one of the person's own passkeys away. */
export async function remove(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("account.own")
  requireProven(caller, "account")
  const id = formField(PasskeyId, form.get("passkey"))
  await removePasskey(store(), { userId: caller.userId, id, by: actorOf(caller) })
  revalidatePath("/account")
}

/** Neither an invented person nor somebody whom the clinic's provider lets in has passkeys here. */
async function ownAccount(userId: string): Promise<Account | null> {
  const account = await findAccountById(store(), userId)
  return account && !account.isFromProvider ? account : null
}
