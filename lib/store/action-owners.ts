import "server-only"
import { may } from "../access/permissions"
import type { PrismaClient } from "./generated/client"

/** The names of whoever may see figures, of which the owner of an action can be chosen. */
export async function listOwners(client: PrismaClient, asked: { isDemo: boolean }): Promise<string[]> {
  const users = await possibleOwners(client, asked)
  return [...new Set(users.map((user) => user.name))]
}

/** The account of the one who bears that name; null where nobody does, or several do. */
export async function ownerAccount(
  client: PrismaClient,
  asked: { name: string; isDemo: boolean },
): Promise<string | null> {
  const wanted = asked.name.toLowerCase()
  const found = (await possibleOwners(client, asked)).filter((user) => user.name.toLowerCase() === wanted)
  const [only] = found
  return found.length === 1 && only ? only.id : null
}

/** Accounts in use; the invented people of the demo are a circle of their own. */
async function possibleOwners(client: PrismaClient, { isDemo }: { isDemo: boolean }) {
  const users = await client.user.findMany({
    where: { disabledAt: null, isDemo },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    select: { id: true, name: true, roles: true, grants: true },
  })
  return users.filter((user) => may(user, "figures.see"))
}
