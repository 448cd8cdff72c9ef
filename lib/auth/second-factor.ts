import "server-only"
import { findSeed, storeRecoveryCodes, storeSeed, useRecoveryCode, useStep } from "../store/factors"
import type { Prisma, PrismaClient } from "../store/generated/client"
import { claimAttempt, forgiveAttempt } from "../store/sign-in-failures"
import { newRecoveryCodes, tidyRecoveryCode } from "./recovery-codes"
import { seal, unseal } from "./seal"
import { newSeed, stepOfCode } from "./totp"

type Client = PrismaClient | Prisma.TransactionClient

export type FactorAnswer = "right" | "wrong" | "too-many"

const dayMs = 24 * 60 * 60_000

/** Judges a code of the app, or a recovery code; each is good once, and after five wrong ones in a row there is a wait. */
export async function checkFactor(
  client: PrismaClient,
  asked: { userId: string; typed: string; key: Buffer; now: Date },
): Promise<FactorAnswer> {
  const { userId, typed, key, now } = asked
  const scope = `factor:${userId}`
  const slowing = { scope, free: 5, mostWaitMs: 60_000, ceiling: 100, forgetAfterMs: dayMs }
  if (await claimAttempt(client, { slowings: [slowing], now })) return "too-many"
  const recovery = tidyRecoveryCode(typed)
  const isRight =
    recovery === null
      ? await isRightCode(client, { userId, typed, key, now })
      : await useRecoveryCode(client, { userId, code: recovery, now })
  if (!isRight) return "wrong"
  await forgiveAttempt(client, { over: [scope], oneLess: [] })
  return "right"
}

/** A seed that is not stored yet: sealed for this person, it travels with the form until a code of it is given. */
export function proposeSeed(key: Buffer, userId: string): { seed: Uint8Array<ArrayBuffer>; sealed: string } {
  const seed = newSeed()
  return { seed, sealed: Buffer.from(seal(key, seed, proposal(userId))).toString("base64url") }
}

/** Stores a proposed seed once a code of it shows that the app holds it; false when it does not. */
export async function acceptSeed(
  client: Client,
  asked: { userId: string; sealed: string; code: string; key: Buffer; now: Date },
): Promise<boolean> {
  const { userId, sealed, code, key, now } = asked
  const opened = unseal(key, Buffer.from(sealed, "base64url"), proposal(userId))
  if (!opened) return false
  const seed = new Uint8Array(opened)
  const step = stepOfCode({ seed, code, lastStep: null, now })
  if (step === null) return false
  await storeSeed(client, { userId, sealed: seal(key, seed, kept(userId)), step })
  return true
}

/** Ten new codes, which are shown now and never again. */
export async function renewRecoveryCodes(client: Client, userId: string): Promise<string[]> {
  const codes = newRecoveryCodes()
  await storeRecoveryCodes(client, { userId, codes })
  return codes
}

async function isRightCode(
  client: Client,
  asked: { userId: string; typed: string; key: Buffer; now: Date },
): Promise<boolean> {
  const { userId, typed, key, now } = asked
  const factor = await findSeed(client, userId)
  const seed = factor && unseal(key, factor.sealed, kept(userId))
  if (!seed) return false
  const step = stepOfCode({ seed: new Uint8Array(seed), code: typed, lastStep: factor.lastStep, now })
  return step !== null && useStep(client, { userId, step })
}

function proposal(userId: string): string {
  return `proposed factor of ${userId}`
}

function kept(userId: string): string {
  return `factor of ${userId}`
}
