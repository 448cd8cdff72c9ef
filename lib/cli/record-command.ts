import { record, type AuditEntry } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"

/** Records what a command is about to print, under the user of the operating system; without the record nothing is printed. */
export async function recordCommand(what: Omit<AuditEntry, "by">): Promise<void> {
  const database = await openDatabase()
  const client = openClient(database.url)
  try {
    await record(client, { by: commandActor(), ...what })
  } finally {
    await client.$disconnect()
    await database.close()
  }
}
