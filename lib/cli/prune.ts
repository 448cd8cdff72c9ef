import type { Command } from "commander"
import { readEnvironment } from "../env"
import { prune } from "../jobs/prune"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { print } from "./print"
import { say } from "./say"

export function register(program: Command): void {
  program
    .command("prune")
    .description("remove what the settings keep no longer; the site does so at each start and once a day")
    .action(async () => {
      const { dataDir } = readEnvironment()
      const database = await openDatabase({ say })
      const client = openClient(database.url)
      try {
        const removed = await prune({ client, dataDir, by: commandActor(), now: new Date() })
        await print(
          `Removed: ${removed.rejectedRows} rejected rows, ${removed.uploads} uploads, ` +
            `${removed.sessions} sessions, ${removed.links} links, ${removed.failures} counts of failed sign-ins.`,
        )
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}
