import "server-only"
import type { Caller } from "../access/caller"
import { findAccountById } from "../store/accounts"
import { record } from "../store/audit"
import { actorOf, strangerActor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { beginSession, markProven } from "../store/sessions"
import { checkSignature, type PasskeySite } from "./passkeys"

type Signed = { answer: unknown; token: string; site: PasskeySite; now: Date }

/**
 * Lets somebody in by a passkey alone: it is something they have, and the authenticator has verified the person. Answers the
 * token of a full session, or null.
 */
export async function signInWithPasskey(
  client: PrismaClient,
  signIn: Signed & { agent: string; address: string },
): Promise<string | null> {
  const { agent, address, now } = signIn
  const userId = await checkSignature(client, { ...signIn, purpose: "sign-in", userId: null })
  const account = userId === null ? null : await findAccountById(client, userId)
  const by = strangerActor(address === "" ? null : address)
  const detail = { method: "passkey" }
  if (!account || account.isFromProvider) {
    await record(client, { by, action: "sign-in.fail", outcome: "refused", detail })
    return null
  }
  const { id, name, roles } = account
  await record(client, { by: { ...by, actor: id, actorName: name, roles }, action: "sign-in", detail })
  return beginSession(client, { userId: id, method: "passkey", stage: "full", agent, address, now })
}

/** Somebody who is signed in shows once more who they are, by one of their passkeys. */
export async function proveWithPasskey(
  client: PrismaClient,
  proof: Signed & { caller: Caller },
): Promise<boolean> {
  const { caller, now } = proof
  const whose = await checkSignature(client, { ...proof, purpose: "prove", userId: caller.userId })
  const isProven = whose !== null
  if (isProven) await markProven(client, caller.session.id, now)
  const outcome = isProven ? "done" : "refused"
  await record(client, {
    ...{ by: actorOf(caller), action: "identity.prove", outcome, detail: { method: "passkey" } },
  })
  return isProven
}
