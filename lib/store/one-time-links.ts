import "server-only"
import { hashToken, newToken } from "../access/tokens"
import type { Prisma, PrismaClient } from "./generated/client"

type Client = PrismaClient | Prisma.TransactionClient

/**
 * What a link is for: the first administrator, a new person's first password, a forgotten password, or a lost second factor
 * as well.
 */
export const linkPurposes = ["setup", "invitation", "reset", "reset-factor"] as const

export type LinkPurpose = (typeof linkPurposes)[number]

export type OneTimeLink = {
  purpose: LinkPurpose
  user: { id: string; userName: string; name: string } | null
}

const lastsMs = 24 * 60 * 60_000

/** Makes a link and answers its token, which is stored nowhere; older ones for the same end. */
export async function makeLink(
  client: Client,
  link: { purpose: LinkPurpose; userId: string | null; now: Date },
): Promise<string> {
  const { purpose, userId, now } = link
  const token = newToken()
  await client.oneTimeLink.deleteMany({
    where: userId === null ? { purpose, usedAt: null } : { userId, usedAt: null },
  })
  await client.oneTimeLink.create({
    data: {
      ...{ tokenHash: hashToken(token), purpose, userId, createdAt: now },
      endsAt: new Date(now.getTime() + lastsMs),
    },
  })
  return token
}

/** What a token is good for, or null: unknown, used, over, or of someone disabled. */
export async function findLink(
  client: Client,
  asked: { token: string; now: Date },
): Promise<OneTimeLink | null> {
  const row = await client.oneTimeLink.findFirst({
    where: { tokenHash: hashToken(asked.token), usedAt: null, endsAt: { gt: asked.now } },
    include: { user: true },
  })
  const purpose = linkPurposes.find((one) => one === row?.purpose)
  if (!row || !purpose || (row.user && row.user.disabledAt !== null)) return null
  if (purpose !== "setup" && !row.user) return null
  return { purpose, user: row.user }
}

/** Uses a link up; of several at once one is told true. */
export async function useUpLink(client: Client, used: { token: string; now: Date }): Promise<boolean> {
  const { count } = await client.oneTimeLink.updateMany({
    where: { tokenHash: hashToken(used.token), usedAt: null, endsAt: { gt: used.now } },
    data: { usedAt: used.now },
  })
  return count === 1
}
