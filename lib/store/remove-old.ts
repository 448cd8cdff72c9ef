import "server-only"
import type { Settings } from "../domain/settings"
import { changeAndRecord } from "./audit"
import type { Actor } from "./audit-actors"
import type { Prisma, PrismaClient } from "./generated/client"

/** How many of each kind were removed. */
export type Removed = {
  rejectedRows: number
  uploads: number
  sessions: number
  links: number
  failures: number
}

const dayMs = 24 * 60 * 60_000

/**
 * Removes what the settings keep no longer, with an entry in the audit log when there was anything; for the owner of the
 * tables. Facts and the audit log are never removed by age. An import that waited too long for an answer is declined.
 */
export async function removeOld(
  client: PrismaClient,
  options: { settings: Settings; by: Actor; now: Date },
): Promise<Removed> {
  const { settings, by, now } = options
  const before = (days: number) => new Date(now.getTime() - days * dayMs)
  return changeAndRecord(
    client,
    async (transaction) => ({
      rejectedRows: await removeRejectedRows(transaction, before(settings["keep.rejectedDays"])),
      uploads: await declineWaiting(transaction, { before: before(settings["keep.uploadDays"]), now }),
      ...(await removeSessions(transaction, before(settings["keep.sessionDays"]))),
      failures: await removeFailures(transaction, before(settings["keep.failureDays"])),
    }),
    (removed) => {
      const isNothing = Object.values(removed).every((count) => count === 0)
      return isNothing ? null : { by, action: "old.remove", detail: removed }
    },
  )
}

/** The counts of an import stay; the text of its rejected rows goes. */
async function removeRejectedRows(client: Prisma.TransactionClient, before: Date): Promise<number> {
  const old = { import: { finishedAt: { lt: before }, status: { not: "asks" } } }
  return (await client.rejectedRow.deleteMany({ where: old })).count
}

async function declineWaiting(
  client: Prisma.TransactionClient,
  { before, now }: { before: Date; now: Date },
): Promise<number> {
  const message = "Nobody answered in the time that uploads are kept. Nothing was stored."
  const declined = await client.import.updateMany({
    where: { status: "asks", uploadPath: { not: null }, startedAt: { lt: before } },
    data: { status: "refused", message, uploadPath: null, finishedAt: now },
  })
  return declined.count
}

async function removeSessions(client: Prisma.TransactionClient, before: Date) {
  const sessions = await client.session.deleteMany({
    where: { OR: [{ endedAt: { lt: before } }, { endsAt: { lt: before } }] },
  })
  const links = await client.oneTimeLink.deleteMany({
    where: { OR: [{ usedAt: { lt: before } }, { endsAt: { lt: before } }] },
  })
  return { sessions: sessions.count, links: links.count }
}

async function removeFailures(client: Prisma.TransactionClient, before: Date): Promise<number> {
  return (await client.signInFailure.deleteMany({ where: { lastAt: { lt: before } } })).count
}
