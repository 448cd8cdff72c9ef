import "server-only"
import type { Account } from "../store/accounts"
import { record } from "../store/audit"
import type { PrismaClient } from "../store/generated/client"
import { beginSession, endSession, type FirstFactor } from "../store/sessions"

/** Both factors are given: the session that waited ends and one with a token of its own begins. */
export async function completeSignIn(
  client: PrismaClient,
  signIn: {
    token: string
    account: Account
    /** How it began. */
    method: FirstFactor
    factor: "code" | "passkey"
    agent: string
    address: string
    now: Date
  },
): Promise<string> {
  const { token, account, method, factor, agent, address, now } = signIn
  await endSession(client, { token, reason: "second factor given", now })
  const { id: userId, name, roles } = account
  await record(client, {
    by: {
      ...{ actor: userId, actorName: name, roles, session: null, origin: "site" },
      address: address === "" ? null : address,
    },
    ...{ action: "sign-in", detail: { method, factor } },
  })
  return beginSession(client, { userId, method, stage: "full", agent, address, now })
}
