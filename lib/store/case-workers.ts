import "server-only"
import { may } from "../access/permissions"
import type { PrismaClient } from "./generated/client"

/** Somebody to whom a case can be given. */
export type CaseWorker = { id: string; name: string }

/** Who may work on cases and can sign in, by name; invented people of the demo among themselves. */
export async function caseWorkers(client: PrismaClient, asked: { isDemo: boolean }): Promise<CaseWorker[]> {
  const users = await client.user.findMany({
    where: { isDemo: asked.isDemo, disabledAt: null },
    orderBy: [{ name: "asc" }, { id: "asc" }],
  })
  return users.filter((user) => may(user, "outreach.work")).map(({ id, name }) => ({ id, name }))
}

/** The names of accounts, also of those that can no longer sign in. */
export async function workerNames(
  client: PrismaClient,
  ids: readonly (string | null)[],
): Promise<Map<string, string>> {
  const asked = [...new Set(ids.flatMap((id) => id ?? []))]
  if (asked.length === 0) return new Map()
  const users = await client.user.findMany({ where: { id: { in: asked } }, select: { id: true, name: true } })
  return new Map(users.map((user) => [user.id, user.name]))
}
