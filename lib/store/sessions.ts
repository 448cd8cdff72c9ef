import "server-only"
import type { Caller } from "../access/caller"
import { sessionLimits } from "../access/session-limits"
import { hashToken, newToken } from "../access/tokens"
import { record } from "./audit"
import { isDemoOnly } from "./demo-personas"
import type { Prisma, PrismaClient } from "./generated/client"

/** How a session begins. */
export type SignInMethod = "password" | "passkey" | "provider" | "demo" | "link"

/** How a sign-in begins that still owes a second factor. */
const firstFactors = ["password", "provider", "link"] as const

export type FirstFactor = (typeof firstFactors)[number]

export type NewSession = {
  userId: string
  method: SignInMethod
  /** "factor" while the second factor is still asked for. */
  stage: "factor" | "full"
  agent: string
  address: string
  now: Date
}

type SessionRow = Prisma.SessionGetPayload<{ include: { user: true } }>

/**
 * Begins a session and returns its token, which is stored nowhere: the caller puts it into a cookie. Beyond the number a
 * person may have at once the oldest ends.
 */
export async function beginSession(client: PrismaClient, session: NewSession): Promise<string> {
  const token = newToken()
  const { now, stage, userId, method, agent, address } = session
  const lastsMs = stage === "full" ? sessionLimits.absoluteMs : sessionLimits.factorMs
  await client.$transaction(async (tx) => {
    await tx.session.create({
      data: {
        tokenHash: hashToken(token),
        ...{ userId, stage, method, address, agent: agent.slice(0, 200) },
        ...{ createdAt: now, lastSeenAt: now, provenAt: now, endsAt: new Date(now.getTime() + lastsMs) },
      },
    })
    const beyond = await tx.session.findMany({
      where: { userId, stage, endedAt: null },
      orderBy: { createdAt: "desc" },
      skip: sessionLimits.atOnce,
      select: { tokenHash: true },
    })
    await end(
      tx,
      { tokenHash: { in: beyond.map((one) => one.tokenHash) } },
      { reason: "too many at once", now },
    )
  })
  return token
}

/**
 * Who a token speaks for, or null: unknown, ended, idle for too long, past its end, of someone disabled, or waiting for
 * its second factor; or an invented one of a clinic that is no demo any more. `isActive` says that the person did something, and keeps the session from becoming idle.
 */
export async function findCaller(
  client: PrismaClient,
  asked: { token: string; now: Date; isActive: boolean },
): Promise<Caller | null> {
  const row = await findLive(client, { ...asked, stage: "full" })
  if (!row || (row.user.isDemo && !(await isDemoOnly(client)))) return null
  const idleMs = asked.now.getTime() - row.lastSeenAt.getTime()
  if (asked.isActive && idleMs >= sessionLimits.seenEveryMs)
    await client.session.updateMany({
      where: { tokenHash: row.tokenHash, endedAt: null },
      data: { lastSeenAt: asked.now },
    })
  return callerOf(row)
}

/** Who has given a first factor and still owes the second; null when the token is none of those. */
export async function findHalfSignedIn(
  client: PrismaClient,
  asked: { token: string; now: Date },
): Promise<{ userId: string; userName: string; method: FirstFactor } | null> {
  const row = await findLive(client, { ...asked, stage: "factor" })
  const method = firstFactors.find((one) => one === row?.method)
  return row && method ? { userId: row.userId, userName: row.user.userName, method } : null
}

export async function endSession(
  client: PrismaClient,
  ended: { token: string; reason: string; now: Date },
): Promise<void> {
  await client.$transaction((tx) => end(tx, { tokenHash: hashToken(ended.token) }, ended))
}

/** Ends every session of a person, but for the one named (its hexadecimal id). */
export async function endSessionsOf(
  client: PrismaClient,
  ended: { userId: string; reason: string; now: Date; except?: string },
): Promise<void> {
  const except = ended.except === undefined ? [] : [new Uint8Array(Buffer.from(ended.except, "hex"))]
  const which = { userId: ended.userId, tokenHash: { notIn: except } }
  await client.$transaction((tx) => end(tx, which, ended))
}

/** The same as a part of a change that is recorded besides. */
export async function endSessionsWithin(
  transaction: Prisma.TransactionClient,
  ended: { userId: string; reason: string; now: Date },
): Promise<void> {
  await end(transaction, { userId: ended.userId }, ended)
}

export async function markProven(client: PrismaClient, sessionId: string, now: Date): Promise<void> {
  await client.session.updateMany({
    where: { tokenHash: new Uint8Array(Buffer.from(sessionId, "hex")), endedAt: null },
    data: { provenAt: now },
  })
}

async function findLive(
  client: PrismaClient,
  asked: { token: string; now: Date; stage: string },
): Promise<SessionRow | null> {
  const row = await client.session.findUnique({
    where: { tokenHash: hashToken(asked.token), stage: asked.stage },
    include: { user: true },
  })
  const now = asked.now.getTime()
  if (!row || row.endedAt !== null || row.user.disabledAt !== null) return null
  if (now >= row.endsAt.getTime() || now - row.lastSeenAt.getTime() >= sessionLimits.idleMs) return null
  return row
}

/** Ends sessions and records it under the person whose they were; one that still owed its second factor opened nothing. */
async function end(
  client: Prisma.TransactionClient,
  which: Prisma.SessionWhereInput,
  { reason, now }: { reason: string; now: Date },
): Promise<void> {
  const rows = await client.session.findMany({
    where: { ...which, endedAt: null },
    select: { tokenHash: true, stage: true, address: true, user: true },
  })
  await client.session.updateMany({
    where: { tokenHash: { in: rows.map((row) => row.tokenHash) }, endedAt: null },
    data: { endedAt: now, endReason: reason },
  })
  for (const { tokenHash, address, user } of rows.filter((row) => row.stage === "full")) {
    const session = Buffer.from(tokenHash).toString("hex")
    await record(client, {
      by: {
        ...{ actor: user.id, actorName: user.name, roles: user.roles, session, origin: "site" },
        address: address === "" ? null : address,
      },
      action: reason.startsWith("signed out") ? "sign-out" : "session.end",
      detail: { reason },
    })
  }
}

function callerOf({ user, ...session }: SessionRow): Caller {
  return {
    userId: user.id,
    userName: user.userName,
    name: user.name,
    roles: user.roles,
    grants: user.grants,
    isDemo: user.isDemo,
    staffId: user.staffId,
    sites: user.sites,
    session: {
      id: Buffer.from(session.tokenHash).toString("hex"),
      method: session.method,
      createdAt: session.createdAt,
      lastSeenAt: session.lastSeenAt,
      endsAt: session.endsAt,
      provenAt: session.provenAt,
      address: session.address,
    },
  }
}
