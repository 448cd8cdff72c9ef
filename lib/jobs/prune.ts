import { readdir, rm, stat } from "node:fs/promises"
import path from "node:path"
import type { Actor } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import { removeOld, type Removed } from "../store/remove-old"
import { readSettings } from "../store/settings"

const anHourMs = 60 * 60_000

/** Removes what is kept no longer, from the record store and from the folder of uploads. */
export async function prune(options: {
  client: PrismaClient
  dataDir: string
  by: Actor
  now: Date
}): Promise<Removed> {
  const { client, dataDir, by, now } = options
  const removed = await removeOld(client, { settings: await readSettings(client), by, now })
  await removeStrayUploads({ client, dataDir, now })
  return removed
}

/** An upload is of use while its import is to come; one that arrives has no import for a moment. */
async function removeStrayUploads(options: {
  client: PrismaClient
  dataDir: string
  now: Date
}): Promise<void> {
  const folder = path.join(options.dataDir, "uploads")
  const names = await readdir(folder).catch(() => [])
  if (names.length === 0) return
  const waiting = await options.client.import.findMany({
    where: { uploadPath: { not: null }, status: { in: ["asks", "waiting", "running"] } },
    select: { uploadPath: true },
  })
  const kept = new Set(waiting.map((one) => path.basename(one.uploadPath ?? "")))
  for (const name of names.filter((one) => !kept.has(one))) {
    const place = path.join(folder, name)
    const { mtimeMs } = await stat(place)
    if (options.now.getTime() - mtimeMs > anHourMs) await rm(place, { recursive: true, force: true })
  }
}
