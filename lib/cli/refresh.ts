import type { Command } from "commander"
import { readEnvironment } from "../env"
import { refresh } from "../jobs/refresh"
import { openDatabase } from "../store/database"
import { say } from "./say"

export function register(program: Command): void {
  program
    .command("refresh")
    .description("build the analytical snapshot anew from the record store")
    .action(async () => {
      const { dataDir } = readEnvironment()
      const database = await openDatabase({ say })
      try {
        await refresh({ databaseUrl: database.url, dataDir, onProgress: say })
        say("The snapshot is up to date.")
      } finally {
        await database.close()
      }
    })
}
