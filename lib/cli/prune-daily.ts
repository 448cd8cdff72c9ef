import { prune } from "../jobs/prune"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { say } from "./say"

const dayMs = 24 * 60 * 60_000

/** Removes what is kept no longer, now and once a day as long as this process lives. A failure is told and tried again. */
export async function pruneDaily(options: { databaseUrl: string; dataDir: string }): Promise<void> {
  const once = async () => {
    const client = openClient(options.databaseUrl)
    try {
      await prune({ client, dataDir: options.dataDir, by: commandActor(), now: new Date() })
    } catch {
      say("What is kept no longer could not be removed. npx filtrate prune tries again and says why.")
    } finally {
      await client.$disconnect()
    }
  }
  await once()
  setInterval(() => void once(), dayMs).unref()
}
