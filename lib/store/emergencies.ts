import "server-only"
import type { Caller } from "../access/caller"
import { changeAndRecord } from "./audit"
import { actorOf } from "./audit-actors"
import type { PrismaClient } from "./generated/client"

/** How long emergency access lasts; one hour: common practice, no source. */
const lastsMs = 60 * 60_000

/** One emergency access, with who reviewed it once somebody has. */
export type Emergency = {
  id: number
  userId: string
  name: string
  reason: string
  startsAt: Date
  endsAt: Date
  reviewedAt: Date | null
  reviewedBy: string | null
  reviewNote: string | null
}

/** The access under way of one person, or null. */
export async function findEmergency(
  client: PrismaClient,
  asked: { userId: string; now: Date },
): Promise<{ id: number; endsAt: Date } | null> {
  return client.emergencyAccess.findFirst({
    where: { userId: asked.userId, startsAt: { lte: asked.now }, endsAt: { gt: asked.now } },
    orderBy: { endsAt: "desc" },
    select: { id: true, endsAt: true },
  })
}

/** Lifts the limits of a person for an hour; the reason is on record before anything shows. */
export async function openEmergency(
  client: PrismaClient,
  access: { caller: Caller; reason: string; now: Date },
): Promise<void> {
  const { caller, reason, now } = access
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.emergencyAccess.create({
        data: { userId: caller.userId, reason, startsAt: now, endsAt: new Date(now.getTime() + lastsMs) },
      }),
    ({ id }) => ({
      ...{ by: actorOf(caller), action: "emergency.open", object: "emergency" },
      ...{ objectId: String(id), purpose: reason },
    }),
  )
}

/** Ends a person's access before its hour is over. */
export async function endEmergency(
  client: PrismaClient,
  access: { caller: Caller; now: Date },
): Promise<void> {
  const { caller, now } = access
  await changeAndRecord(
    client,
    (transaction) =>
      transaction.emergencyAccess.updateMany({
        where: { userId: caller.userId, endsAt: { gt: now } },
        data: { endsAt: now },
      }),
    ({ count }) =>
      count === 0 ? null : { by: actorOf(caller), action: "emergency.end", object: "emergency" },
  )
}

/** Every access there was, those without a review first, then the latest. */
export async function listEmergencies(client: PrismaClient): Promise<Emergency[]> {
  const rows = await client.emergencyAccess.findMany({
    include: { user: { select: { name: true } } },
    orderBy: [{ reviewedAt: { sort: "desc", nulls: "first" } }, { startsAt: "desc" }],
  })
  return rows.map(({ user, ...row }) => ({ ...row, name: user.name }))
}

/** Signs an access off with a note; false when it has been, or is the reviewer's own. */
export async function reviewEmergency(
  client: PrismaClient,
  review: { id: number; caller: Caller; note: string; now: Date },
): Promise<boolean> {
  const { id, caller, note, now } = review
  const { count } = await changeAndRecord(
    client,
    (transaction) =>
      transaction.emergencyAccess.updateMany({
        where: { id, reviewedAt: null, userId: { not: caller.userId } },
        data: { reviewedAt: now, reviewedBy: caller.name, reviewNote: note },
      }),
    (answer) =>
      answer.count === 0
        ? null
        : {
            ...{ by: actorOf(caller), action: "emergency.review", object: "emergency" },
            ...{ objectId: String(id), purpose: note },
          },
  )
  return count === 1
}
