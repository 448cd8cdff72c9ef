import "server-only"
import { findAccount, isKnownAddress, renewPasswordHash, UserName, type Account } from "../store/accounts"
import { record } from "../store/audit"
import { strangerActor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { beginSession } from "../store/sessions"
import { claimAttempt, forgiveAttempt, type Slowing } from "../store/sign-in-failures"
import { hashPassword, verifyPassword } from "./password-hash"

export type SignIn = {
  userName: string
  password: string
  agent: string
  address: string
  now: Date
}

export type SignInAnswer =
  { status: "half"; token: string } | { status: "refused" } | { status: "wait"; seconds: number }

const minuteMs = 60_000
const dayMs = 24 * 60 * minuteMs
const knownForMs = 30 * dayMs

/**
 * The first factor: a user name and its password. An unknown name and a wrong password are refused alike and as slowly. Every
 * attempt is counted before it is judged, so that no number of them at once is judged more often than is allowed.
 */
export async function signIn(client: PrismaClient, attempt: SignIn): Promise<SignInAnswer> {
  const { password, agent, address, now } = attempt
  const named = UserName.safeParse(attempt.userName)
  const userName = named.success ? named.data : ""
  const account = named.success ? await findAccount(client, userName) : null
  const { slowings, own } = await slowingsOf(client, { userName, account, address, now })
  const until = await claimAttempt(client, { slowings, now })
  if (until) return refuse(client, { attempt, account, until })
  const { isRight, isOutdated } = await verifyPassword(account?.passwordHash ?? null, password)
  if (!isRight || !account) return refuse(client, { attempt, account, until: null })
  await forgiveAttempt(client, { over: own, oneLess: [addressScope(address)] })
  if (isOutdated && account.passwordHash !== null)
    await renewPasswordHash(client, {
      ...{ userId: account.id, before: account.passwordHash },
      passwordHash: await hashPassword(password),
    })
  const about = { userId: account.id, method: "password", stage: "factor", agent, address, now } as const
  return { status: "half", token: await beginSession(client, about) }
}

/** Opens the sign-in of an account again, whatever was tried before: a new password is a new beginning. */
export async function forgetFailures(client: PrismaClient, userName: string): Promise<void> {
  await forgiveAttempt(client, { over: [accountScope(userName)], oneLess: [] })
}

/**
 * What slows an attempt: failures at this account from this address, at this account from anywhere, and of this address at any
 * account. From an address where the person has signed in of late the second does not count, so that nobody can keep others out.
 */
async function slowingsOf(
  client: PrismaClient,
  of: { userName: string; account: Account | null; address: string; now: Date },
): Promise<{ slowings: Slowing[]; own: string[] }> {
  const { userName, account, address, now } = of
  const since = new Date(now.getTime() - knownForMs)
  const isKnown = account !== null && (await isKnownAddress(client, { userId: account.id, address, since }))
  const row = { free: 5, mostWaitMs: minuteMs, ceiling: 100, forgetAfterMs: 365 * dayMs }
  const pair = `account-address:${userName} ${address}`
  const ofAddress = { free: 30, mostWaitMs: minuteMs, ceiling: Infinity, forgetAfterMs: minuteMs }
  return {
    slowings: [
      { ...row, scope: pair, forgetAfterMs: dayMs },
      ...(isKnown ? [] : [{ ...row, scope: accountScope(userName) }]),
      { ...ofAddress, scope: addressScope(address) },
    ],
    own: [pair, accountScope(userName)],
  }
}

function accountScope(userName: string): string {
  return `account:${userName}`
}

function addressScope(address: string): string {
  return `address:${address}`
}

/** The log names an account there is and nothing else that was typed, which may be a password in the wrong field. */
async function refuse(
  client: PrismaClient,
  of: { attempt: SignIn; account: Account | null; until: Date | null },
): Promise<SignInAnswer> {
  const { attempt, account, until } = of
  const by = strangerActor(attempt.address === "" ? null : attempt.address, account?.userName)
  const entry = {
    by,
    action: "sign-in.fail",
    outcome: "refused",
    detail: { isSlowed: until !== null },
  } as const
  await record(client, account ? { ...entry, object: "user", objectId: account.id } : entry)
  if (!until) return { status: "refused" }
  return { status: "wait", seconds: Math.max(1, Math.ceil((until.getTime() - attempt.now.getTime()) / 1000)) }
}
