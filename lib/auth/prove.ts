import "server-only"
import type { Caller } from "../access/caller"
import { findAccountById } from "../store/accounts"
import { record } from "../store/audit"
import { actorOf } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { markProven } from "../store/sessions"
import { claimAttempt, forgiveAttempt } from "../store/sign-in-failures"
import { verifyPassword } from "./password-hash"
import { checkFactor } from "./second-factor"

export type Proof = "right" | "wrong" | "too-many"

/** Somebody who is signed in shows once more who they are, by a code of the second factor or the password. */
export async function prove(
  client: PrismaClient,
  proof: { caller: Caller; typed: string; key: Buffer; now: Date },
): Promise<Proof> {
  const { caller, typed, key, now } = proof
  const { userId, session } = caller
  const answer = /^[\d\s]{6,8}$/.test(typed)
    ? await checkFactor(client, { userId, typed, key, now })
    : await checkPassword(client, { userId, password: typed, now })
  if (answer === "right") await markProven(client, session.id, now)
  const outcome = answer === "right" ? "done" : "refused"
  await record(client, { by: actorOf(caller), action: "identity.prove", outcome })
  return answer
}

/** Judges the password of somebody who is signed in, as slowly as at the sign-in. */
export async function checkPassword(
  client: PrismaClient,
  asked: { userId: string; password: string; now: Date },
): Promise<Proof> {
  const { userId, password, now } = asked
  const scope = `proof:${userId}`
  const slowing = { scope, free: 5, mostWaitMs: 60_000, ceiling: 100, forgetAfterMs: 24 * 60 * 60_000 }
  if (await claimAttempt(client, { slowings: [slowing], now })) return "too-many"
  const account = await findAccountById(client, userId)
  const { isRight } = await verifyPassword(account?.passwordHash ?? null, password)
  if (!isRight) return "wrong"
  await forgiveAttempt(client, { over: [scope], oneLess: [] })
  return "right"
}
