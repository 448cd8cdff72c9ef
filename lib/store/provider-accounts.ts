import "server-only"
import { createHash } from "node:crypto"
import { PersonName, UserName } from "./accounts"
import { changeAndRecord, record } from "./audit"
import type { Actor } from "./audit-actors"
import { removeFactors } from "./factors"
import { endSessionsWithin } from "./sessions"
import type { Prisma, PrismaClient } from "./generated/client"

export type ProviderAccount = {
  issuer: string
  subject: string
  /** As the provider writes them; either may be empty or unfit. */
  name: string
  userName: string
  roles: readonly string[]
  by: Actor
  now: Date
}

export type KeptAccount = { userId: string; name: string; isDisabled: boolean }

type User = Prisma.UserGetPayload<object>

/**
 * Keeps the account of someone at the clinic's provider as the provider describes them now, and records what changed. Nobody
 * is made without a role (null); a disabled account is left as it is; who has no role any more is signed out everywhere.
 */
export async function keepProviderAccount(
  client: PrismaClient,
  account: ProviderAccount,
): Promise<KeptAccount | null> {
  const { issuer, subject } = account
  return client.$transaction(async (transaction) => {
    await transaction.$queryRaw`select 1 as locked from pg_advisory_xact_lock(hashtextextended(${`${issuer} ${subject}`}, 0))`
    const user = await transaction.user.findFirst({ where: { issuer, subject } })
    if (user) return renew(transaction, user, account)
    return account.roles.length === 0 ? null : make(transaction, account)
  })
}

/** Whether an account that is not disabled is that of an identity at the provider. */
export async function isProviderAccount(
  client: PrismaClient,
  asked: { userId: string; issuer: string; subject: string },
): Promise<boolean> {
  const { userId: id, issuer, subject } = asked
  return (await client.user.count({ where: { id, issuer, subject, disabledAt: null } })) === 1
}

/** Takes a lost second factor of this site away; sessions end. False when the account is none of the provider's. */
export async function takeFactorAway(
  client: PrismaClient,
  taken: { id: string; by: Actor; now: Date },
): Promise<boolean> {
  const { id, by, now } = taken
  return changeAndRecord(
    client,
    async (transaction) => {
      const user = await transaction.user.findFirst({ where: { id, subject: { not: null } } })
      if (!user) return false
      await removeFactors(transaction, id)
      await endSessionsWithin(transaction, { userId: id, reason: "second factor taken away", now })
      return true
    },
    (isTaken) =>
      isTaken
        ? { by, action: "factor.change", object: "user", objectId: id, detail: { what: "taken away" } }
        : null,
  )
}

async function renew(
  transaction: Prisma.TransactionClient,
  user: User,
  account: ProviderAccount,
): Promise<KeptAccount> {
  if (user.disabledAt !== null) return { userId: user.id, name: user.name, isDisabled: true }
  const roles = [...account.roles]
  const name = PersonName.safeParse(account.name).data ?? user.name
  const kept = { userId: user.id, name, isDisabled: false }
  if (name === user.name && roles.join() === user.roles.join()) return kept
  const data = { name, roles, version: { increment: 1 } }
  await transaction.user.update({ where: { id: user.id }, data })
  if (roles.length === 0)
    await endSessionsWithin(transaction, {
      ...{ userId: user.id, reason: "no role at the provider", now: account.now },
    })
  await tell(transaction, { account, userId: user.id, action: "user.change", before: user.roles })
  return kept
}

async function make(transaction: Prisma.TransactionClient, account: ProviderAccount): Promise<KeptAccount> {
  const { issuer, subject } = account
  const userName = await freeUserName(transaction, account)
  const name = PersonName.safeParse(account.name).data ?? userName
  const user = await transaction.user.create({
    data: { userName, name, roles: [...account.roles], issuer, subject },
  })
  await tell(transaction, { account, userId: user.id, action: "user.make", before: [] })
  return { userId: user.id, name, isDisabled: false }
}

/** The provider's name where nobody has it; an account that has it is another, and is never taken over. */
async function freeUserName(
  transaction: Prisma.TransactionClient,
  { issuer, subject, userName }: ProviderAccount,
): Promise<string> {
  const mark = createHash("sha256").update(`${issuer} ${subject}`, "utf8").digest("hex").slice(0, 12)
  const wished = UserName.safeParse(userName.slice(0, 50)).data
  if (wished === undefined) return `person-${mark}`
  const other = await transaction.user.findUnique({ where: { userName: wished }, select: { id: true } })
  return other ? `${wished}-${mark}` : wished
}

async function tell(
  transaction: Prisma.TransactionClient,
  told: {
    account: ProviderAccount
    userId: string
    action: "user.make" | "user.change"
    before: readonly string[]
  },
): Promise<void> {
  const { account, userId, action, before } = told
  await record(transaction, {
    ...{ by: account.by, action, object: "user", objectId: userId },
    detail: { through: "provider", rolesBefore: before.join(" "), roles: account.roles.join(" ") },
  })
}
