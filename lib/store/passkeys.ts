import "server-only"
import { changeAndRecord } from "./audit"
import type { Actor } from "./audit-actors"
import type { PrismaClient } from "./generated/client"

/** A passkey as its person sees it. */
export type OwnPasskey = { id: string; name: string; createdAt: Date; lastUsedAt: Date | null }

/** What is needed to judge its signatures. */
export type PasskeyKey = {
  id: string
  userId: string
  publicKey: Uint8Array<ArrayBuffer>
  counter: bigint
  transports: string[]
}

/** Of one account; more are no help to anybody (common practice, no source). */
export const mostPasskeys = 10

type Change = { userId: string; id: string; by: Actor }

/** Somebody's passkeys, the oldest first. */
export async function listPasskeys(client: PrismaClient, userId: string): Promise<OwnPasskey[]> {
  return client.passkey.findMany({
    where: { userId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    select: { id: true, name: true, createdAt: true, lastUsedAt: true },
  })
}

export async function listPasskeyKeys(client: PrismaClient, userId: string): Promise<PasskeyKey[]> {
  return client.passkey.findMany({ where: { userId }, orderBy: { id: "asc" } })
}

export async function findPasskeyKey(client: PrismaClient, id: string): Promise<PasskeyKey | null> {
  return client.passkey.findUnique({ where: { id } })
}

/** Adds a passkey to an account; false where it is somebody's already, or there are too many. */
export async function addPasskey(
  client: PrismaClient,
  added: PasskeyKey & { name: string; by: Actor; now: Date },
): Promise<boolean> {
  const { id, userId, publicKey, counter, transports, name, by, now } = added
  return changeAndRecord(
    client,
    async (transaction) => {
      const [others, same] = [
        await transaction.passkey.count({ where: { userId } }),
        await transaction.passkey.count({ where: { id } }),
      ]
      if (others >= mostPasskeys || same > 0) return false
      const key = { id, userId, publicKey, counter, transports, name, createdAt: now }
      await transaction.passkey.create({ data: key })
      return true
    },
    (isAdded) => (isAdded ? entryOf({ userId, by }, "passkey added") : null),
  )
}

/** Gives one of somebody's own passkeys another name; another's is left alone. */
export async function renamePasskey(client: PrismaClient, change: Change & { name: string }): Promise<void> {
  const { userId, id, name } = change
  await changeAndRecord(
    client,
    (transaction) => transaction.passkey.updateMany({ where: { id, userId }, data: { name } }),
    ({ count }) => (count === 1 ? entryOf(change, "passkey renamed") : null),
  )
}

/** Takes one of somebody's own passkeys away; another's is left alone. */
export async function removePasskey(client: PrismaClient, change: Change): Promise<void> {
  const { userId, id } = change
  await changeAndRecord(
    client,
    (transaction) => transaction.passkey.deleteMany({ where: { id, userId } }),
    ({ count }) => (count === 1 ? entryOf(change, "passkey removed") : null),
  )
}

/** Writes down that a passkey was used; false when its counter has moved meanwhile, which two uses of one answer would do. */
export async function markPasskeyUsed(
  client: PrismaClient,
  used: { id: string; before: bigint; counter: bigint; now: Date },
): Promise<boolean> {
  const { id, before, counter, now } = used
  const { count } = await client.passkey.updateMany({
    where: { id, counter: before },
    data: { counter, lastUsedAt: now },
  })
  return count === 1
}

function entryOf({ userId, by }: { userId: string; by: Actor }, what: string) {
  return { by, action: "factor.change", object: "user", objectId: userId, detail: { what } } as const
}
