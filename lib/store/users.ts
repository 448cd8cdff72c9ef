import "server-only"
import type { Role } from "../access/roles"
import type { Actor } from "./audit-actors"
import { record } from "./audit"
import type { Prisma } from "./generated/client"
import { type PrismaClient } from "./generated/client"
import { makeLink, type LinkPurpose } from "./one-time-links"

/** An account as the one who manages them sees it. */
export type UserEntry = {
  id: string
  userName: string
  name: string
  roles: string[]
  grants: string[]
  staffId: string | null
  sites: string[]
  isDisabled: boolean
  hasPassword: boolean
  hasFactor: boolean
  isFromProvider: boolean
  version: number
}

export type UserShape = {
  name: string
  roles: readonly Role[]
  grants: readonly string[]
  staffId: string | null
  sites: readonly string[]
}

/** Why a change was not made, or that it was. */
export type UserAnswer = "done" | "taken" | "outdated" | "last-administrator"

type Change = { id: string; version: number; by: Actor; now: Date }

/** Everybody real, by name. */
export async function listUsers(client: PrismaClient): Promise<UserEntry[]> {
  const users = await client.user.findMany({
    where: { isDemo: false },
    orderBy: [{ name: "asc" }, { id: "asc" }],
  })
  return users.map((user) => ({
    ...{ id: user.id, userName: user.userName, name: user.name, roles: user.roles, grants: user.grants },
    ...{ staffId: user.staffId, sites: user.sites, version: user.version },
    isDisabled: user.disabledAt !== null,
    hasPassword: user.passwordHash !== null,
    hasFactor: user.totpSecret !== null,
    isFromProvider: user.subject !== null,
  }))
}

/** Makes an account and the link by which its person sets a password. */
export async function inviteUser(
  client: PrismaClient,
  invited: { userName: string; shape: UserShape; by: Actor; now: Date },
): Promise<{ status: "done"; token: string } | { status: "taken" }> {
  const { userName, shape, by, now } = invited
  return client.$transaction(async (transaction) => {
    await oneAtATime(transaction)
    if (await transaction.user.findUnique({ where: { userName } })) return { status: "taken" }
    const { id } = await transaction.user.create({ data: { userName, ...dataOf(shape) } })
    const token = await makeLink(transaction, { purpose: "invitation", userId: id, now })
    const detail = { roles: shape.roles.join(" ") }
    await record(transaction, { by, action: "user.make", object: "user", objectId: id, detail })
    return { status: "done", token }
  })
}

/** Changes what somebody is and may; who loses something by it loses it at the next request. */
export async function changeUser(
  client: PrismaClient,
  change: Change & { shape: UserShape; reason: string },
): Promise<UserAnswer> {
  const { id, shape, by, reason } = change
  return client.$transaction(async (transaction) => {
    await oneAtATime(transaction)
    const isKept = shape.roles.includes("administrator")
    if (!isKept && (await isLastAdministrator(transaction, id))) return "last-administrator"
    if (!(await update(transaction, change, dataOf(shape)))) return "outdated"
    const detail = { roles: shape.roles.join(" "), grants: shape.grants.join(" ") }
    await record(transaction, {
      ...{ by, action: "user.change", object: "user", objectId: id, purpose: reason, detail },
    })
    return "done"
  })
}

/** Keeps somebody out from now on, or lets them in again; sessions end at once. */
export async function setDisabled(
  client: PrismaClient,
  change: Change & { isDisabled: boolean },
): Promise<UserAnswer> {
  const { id, by, now, isDisabled } = change
  return client.$transaction(async (transaction) => {
    await oneAtATime(transaction)
    if (isDisabled && (await isLastAdministrator(transaction, id))) return "last-administrator"
    if (!(await update(transaction, change, { disabledAt: isDisabled ? now : null }))) return "outdated"
    if (isDisabled) {
      const ended = { endedAt: now, endReason: "account disabled" }
      await transaction.session.updateMany({ where: { userId: id, endedAt: null }, data: ended })
      await transaction.oneTimeLink.deleteMany({ where: { userId: id, usedAt: null } })
    }
    const action = isDisabled ? "user.disable" : "user.change"
    await record(transaction, { by, action, object: "user", objectId: id, detail: { isDisabled } })
    return "done"
  })
}

/** Makes a new link for somebody; null when they are disabled, not there, or the provider's to let in. */
export async function makeUserLink(
  client: PrismaClient,
  link: { id: string; purpose: Exclude<LinkPurpose, "setup">; by: Actor; now: Date },
): Promise<string | null> {
  const { id, purpose, by, now } = link
  return client.$transaction(async (transaction) => {
    const user = await transaction.user.findFirst({
      where: { id, isDemo: false, subject: null, disabledAt: null },
    })
    if (!user) return null
    const token = await makeLink(transaction, { purpose, userId: id, now })
    await record(transaction, { by, action: "link.make", object: "user", objectId: id, detail: { purpose } })
    return token
  })
}

/** Two who change accounts come one after the other, so that two administrators cannot take each other away. */
async function oneAtATime(transaction: Prisma.TransactionClient): Promise<void> {
  await transaction.$queryRaw`select id from clinics where id = 1 for update`
}

async function isLastAdministrator(transaction: Prisma.TransactionClient, id: string): Promise<boolean> {
  const able = { isDemo: false, disabledAt: null, roles: { has: "administrator" } }
  const rows = await transaction.user.findMany({
    where: { ...able, OR: [{ passwordHash: { not: null } }, { subject: { not: null } }] },
    select: { id: true },
  })
  return rows.length === 1 && rows[0]?.id === id
}

async function update(
  transaction: Prisma.TransactionClient,
  { id, version }: Change,
  data: Prisma.UserUpdateManyMutationInput,
): Promise<boolean> {
  const { count } = await transaction.user.updateMany({
    where: { id, version, isDemo: false },
    data: { ...data, version: { increment: 1 } },
  })
  return count === 1
}

function dataOf({ name, roles, grants, staffId, sites }: UserShape) {
  return { name, roles: [...roles], grants: [...grants], staffId, sites: [...sites] }
}
