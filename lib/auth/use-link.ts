import "server-only"
import { storePasswordHash } from "../store/accounts"
import { changeAndRecord } from "../store/audit"
import { strangerActor } from "../store/audit-actors"
import { removeFactors } from "../store/factors"
import type { PrismaClient } from "../store/generated/client"
import { findLink, useUpLink } from "../store/one-time-links"
import { beginSession, endSessionsOf } from "../store/sessions"
import { hashPassword } from "./password-hash"
import { forgetFailures } from "./sign-in"

type Used = {
  token: string
  password: string
  /** For the setup link: who the first administrator is. */
  newcomer: { userName: string; name: string; isLead: boolean } | null
  agent: string
  address: string
  now: Date
}

/**
 * Uses a one-time link: makes the first administrator or sets someone's password, ends the sessions there were, and answers the
 * token of a session that still owes the second factor; null when the link is good for nothing. All of it or nothing happens.
 */
export async function useLink(client: PrismaClient, used: Used): Promise<string | null> {
  const { token, newcomer, agent, address, now } = used
  const link = await findLink(client, { token, now })
  if (!link || (link.purpose === "setup") !== (newcomer !== null)) return null
  const passwordHash = await hashPassword(used.password)
  const user = await changeAndRecord(
    client,
    async (transaction) => {
      if (!(await useUpLink(transaction, { token, now }))) return null
      if (newcomer)
        return transaction.user.create({ data: firstAdministrator(newcomer, { passwordHash, now }) })
      if (!link.user) return null
      await storePasswordHash(transaction, { userId: link.user.id, passwordHash, now })
      if (link.purpose === "reset-factor") await removeFactors(transaction, link.user.id)
      return link.user
    },
    (answer) =>
      answer && {
        ...{ by: strangerActor(address === "" ? null : address, answer.userName), action: "link.use" },
        ...{ object: "user", objectId: answer.id, detail: { purpose: link.purpose } },
      },
  )
  if (!user) return null
  await endSessionsOf(client, { userId: user.id, reason: "password set anew", now })
  await forgetFailures(client, user.userName)
  return beginSession(client, { userId: user.id, method: "link", stage: "factor", agent, address, now })
}

function firstAdministrator(
  { userName, name, isLead }: { userName: string; name: string; isLead: boolean },
  set: { passwordHash: string; now: Date },
) {
  return {
    ...{ userName, name, passwordHash: set.passwordHash, passwordSetAt: set.now },
    roles: isLead ? ["administrator", "clinic-lead"] : ["administrator"],
    ...{ grants: [], sites: [] },
  }
}
