import "server-only"
import { sessionLimits } from "../access/session-limits"
import { changeAndRecord } from "./audit"
import type { Actor } from "./audit-actors"
import type { PrismaClient } from "./generated/client"

export type OwnSession = {
  id: string
  method: string
  agent: string
  address: string
  createdAt: Date
  lastSeenAt: Date
}

/** Somebody's sessions that are still good, the one last used first. */
export async function listSessions(
  client: PrismaClient,
  asked: { userId: string; now: Date },
): Promise<OwnSession[]> {
  const { userId, now } = asked
  const rows = await client.session.findMany({
    where: {
      ...{ userId, stage: "full", endedAt: null, endsAt: { gt: now } },
      lastSeenAt: { gt: new Date(now.getTime() - sessionLimits.idleMs) },
    },
    orderBy: { lastSeenAt: "desc" },
  })
  return rows.map(({ tokenHash, method, agent, address, createdAt, lastSeenAt }) => ({
    ...{ id: Buffer.from(tokenHash).toString("hex"), method, agent, address, createdAt, lastSeenAt },
  }))
}

/** Ends one of somebody's own sessions; another's is left alone. */
export async function endOwnSession(
  client: PrismaClient,
  ended: { userId: string; id: string; by: Actor; now: Date },
): Promise<void> {
  const tokenHash = new Uint8Array(Buffer.from(ended.id, "hex"))
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.session.updateMany({
        where: { tokenHash, userId: ended.userId, endedAt: null },
        data: { endedAt: ended.now, endReason: "ended by its person" },
      }),
    ({ count }) =>
      count === 0 ? null : { by: ended.by, action: "session.end", object: "session", objectId: ended.id },
  )
}
