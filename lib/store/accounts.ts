import "server-only"
import { z } from "zod"
import { TypedText } from "../domain/typed-text"
import type { Prisma, PrismaClient } from "./generated/client"

type Client = PrismaClient | Prisma.TransactionClient

/** As it is typed at sign-in: different ways to type one letter, and capitals, are one. */
export const UserName = z
  .string()
  .trim()
  .transform((name) => name.normalize("NFKC").toLowerCase())
  .pipe(z.string().regex(/^[\p{L}\p{N}][\p{L}\p{N}.@_-]{1,63}$/u))

/** A name as the staff list would write it. */
export const PersonName = TypedText.trim().min(2).max(100)

/** What the sign-in needs of an account. */
export type Account = {
  id: string
  userName: string
  name: string
  roles: string[]
  passwordHash: string | null
  hasFactor: boolean
  /** Known by the clinic's provider, and let in by nothing else. */
  isFromProvider: boolean
}

/** The account that a password of its own lets in; none that is disabled, an invented person's, or the provider's. */
export async function findAccount(client: Client, userName: string): Promise<Account | null> {
  return accountOf(
    await client.user.findFirst({ where: { userName, subject: null, isDemo: false, disabledAt: null } }),
  )
}

export async function findAccountById(client: Client, id: string): Promise<Account | null> {
  return accountOf(await client.user.findFirst({ where: { id, isDemo: false, disabledAt: null } }))
}

export async function storePasswordHash(
  client: Client,
  stored: { userId: string; passwordHash: string; now: Date },
): Promise<void> {
  const { userId, passwordHash, now } = stored
  await client.user.update({
    where: { id: userId },
    data: { passwordHash, passwordSetAt: now, version: { increment: 1 } },
  })
}

/** The same password hashed anew; it counts as no change of it. */
export async function renewPasswordHash(
  client: Client,
  renewed: { userId: string; before: string; passwordHash: string },
): Promise<void> {
  const { userId, before, passwordHash } = renewed
  await client.user.updateMany({ where: { id: userId, passwordHash: before }, data: { passwordHash } })
}

/** Whether somebody real could let others in: an administrator who is not disabled and has a way to sign in. */
export async function hasAdministrator(client: Client): Promise<boolean> {
  const one = await client.user.findFirst({
    where: {
      ...{ isDemo: false, disabledAt: null, roles: { has: "administrator" } },
      OR: [{ passwordHash: { not: null } }, { subject: { not: null } }],
    },
    select: { id: true },
  })
  return one !== null
}

/** Whether a full session of this person has lately begun at this address. */
export async function isKnownAddress(
  client: Client,
  asked: { userId: string; address: string; since: Date },
): Promise<boolean> {
  const { userId, address, since } = asked
  const one = await client.session.findFirst({
    where: { userId, address, stage: "full", createdAt: { gte: since } },
    select: { userId: true },
  })
  return one !== null
}

function accountOf(user: Prisma.UserGetPayload<object> | null): Account | null {
  if (!user) return null
  const { id, userName, name, roles, passwordHash, totpSecret, subject } = user
  const isFromProvider = subject !== null
  return { id, userName, name, roles, passwordHash, hasFactor: totpSecret !== null, isFromProvider }
}
