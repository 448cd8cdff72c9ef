import "server-only"
import { createHash } from "node:crypto"
import type { Prisma, PrismaClient } from "./generated/client"

type Client = PrismaClient | Prisma.TransactionClient

/** The sealed seed of someone's codes and the last step that was used, or null. */
export async function findSeed(
  client: Client,
  userId: string,
): Promise<{ sealed: Uint8Array; lastStep: bigint | null } | null> {
  const user = await client.user.findUnique({ where: { id: userId } })
  return user?.totpSecret ? { sealed: user.totpSecret, lastStep: user.totpStep } : null
}

/** Puts a factor in place of the one before; codes for a lost one go with it. */
export async function storeSeed(
  client: Client,
  factor: { userId: string; sealed: Uint8Array<ArrayBuffer>; step: bigint },
): Promise<void> {
  const { userId, sealed, step } = factor
  await client.recoveryCode.deleteMany({ where: { userId } })
  await client.user.update({
    where: { id: userId },
    data: { totpSecret: sealed, totpStep: step, version: { increment: 1 } },
  })
}

export async function removeFactors(client: Client, userId: string): Promise<void> {
  await client.recoveryCode.deleteMany({ where: { userId } })
  await client.passkey.deleteMany({ where: { userId } })
  await client.user.update({
    where: { id: userId },
    data: { totpSecret: null, totpStep: null, version: { increment: 1 } },
  })
}

/** Uses a step up: of several codes of one step at once one is told true. */
export async function useStep(client: Client, used: { userId: string; step: bigint }): Promise<boolean> {
  const { count } = await client.user.updateMany({
    where: { id: used.userId, OR: [{ totpStep: null }, { totpStep: { lt: used.step } }] },
    data: { totpStep: used.step },
  })
  return count === 1
}

/** Puts new codes in place of those before. */
export async function storeRecoveryCodes(
  client: Client,
  codes: { userId: string; codes: readonly string[] },
): Promise<void> {
  const { userId } = codes
  await client.recoveryCode.deleteMany({ where: { userId } })
  await client.recoveryCode.createMany({
    data: codes.codes.map((code) => ({ userId, codeHash: hashCode(userId, code) })),
  })
}

/** Uses a recovery code up; of several at once one is told true. */
export async function useRecoveryCode(
  client: Client,
  used: { userId: string; code: string; now: Date },
): Promise<boolean> {
  const { userId, code, now } = used
  const { count } = await client.recoveryCode.updateMany({
    where: { userId, codeHash: hashCode(userId, code), usedAt: null },
    data: { usedAt: now },
  })
  return count === 1
}

export async function countRecoveryCodes(client: Client, userId: string): Promise<number> {
  return client.recoveryCode.count({ where: { userId, usedAt: null } })
}

/** 120 random bits need no slow hash; the account's id is the salt. */
function hashCode(userId: string, code: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash("sha256").update(`${userId} ${code}`, "utf8").digest())
}
