import "server-only"
import type { Account } from "../store/accounts"
import { record } from "../store/audit"
import { strangerActor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"

/** A second factor that was not right is a failed sign-in of an account whose first factor somebody knows. */
export async function recordFailedCode(
  client: PrismaClient,
  failed: { account: Account; address: string; isSlowed: boolean },
): Promise<void> {
  const { account, address, isSlowed } = failed
  await record(client, {
    by: strangerActor(address === "" ? null : address, account.userName),
    ...{ action: "sign-in.fail", outcome: "refused", object: "user", objectId: account.id },
    detail: { step: "second factor", isSlowed },
  })
}
