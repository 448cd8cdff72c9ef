import type { Command } from "commander"
import { AppError } from "../errors"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { verifyAudit } from "../store/audit-verify"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { print } from "./print"
import { say } from "./say"

export function register(program: Command): void {
  program
    .command("audit <action>")
    .description("verify the audit log: that no entry was altered, taken out or reordered")
    .action(async (action: string) => {
      if (action !== "verify") throw new AppError("bad-request", "The action is verify.")
      const database = await openDatabase({ say })
      const client = openClient(database.url)
      try {
        const { entries, first } = await verifyAudit(client)
        const outcome = first ? "failed" : "done"
        await record(client, { by: commandActor(), action: "audit.verify", outcome, detail: { entries } })
        if (first)
          throw new AppError("audit-broken", `The audit log is broken at entry ${first.seq}: ${first.fault}.`)
        await print(`The audit log is whole: ${entries} entries, each tied to the one before.`)
      } finally {
        await client.$disconnect()
        await database.close()
      }
    })
}
