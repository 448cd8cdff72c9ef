import "server-only"
import { hasAdministrator } from "../store/accounts"
import { isDemoOnly } from "../store/demo-personas"
import type { PrismaClient } from "../store/generated/client"
import { makeLink } from "../store/one-time-links"

/** A way in for the first administrator, new at each start until one is there; null for a demo, which has its own people. */
export async function setupLink(
  client: PrismaClient,
  site: { origin: string; now: Date },
): Promise<string | null> {
  if ((await hasAdministrator(client)) || (await isDemoOnly(client))) return null
  const token = await makeLink(client, { purpose: "setup", userId: null, now: site.now })
  return linkAddress(site.origin, token)
}

export function linkAddress(origin: string, token: string): string {
  return `${origin}/setup/${token}`
}
