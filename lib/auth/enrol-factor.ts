import "server-only"
import type { Account } from "../store/accounts"
import { changeAndRecord } from "../store/audit"
import { strangerActor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { acceptSeed } from "./second-factor"

/** Stores the first second factor of an account and records it, or neither; false when the code is not one of it. */
export async function enrolFactor(
  client: PrismaClient,
  asked: { account: Account; sealed: string; code: string; key: Buffer; address: string; now: Date },
): Promise<boolean> {
  const { account, address, ...given } = asked
  return changeAndRecord(
    client,
    (transaction) => acceptSeed(transaction, { userId: account.id, ...given }),
    (isAccepted) =>
      isAccepted
        ? {
            by: strangerActor(address === "" ? null : address, account.userName),
            ...{ action: "factor.change", object: "user", objectId: account.id },
            detail: { what: "authenticator" },
          }
        : null,
  )
}
