import "server-only"
import type pg from "pg"
import type { FileReport } from "../domain/import-report"
import { commandActor, type Actor } from "./audit-actors"

/** Records that an extract was stored, over the import's own transaction and as its last step: both are kept or neither. */
export async function recordStored(
  client: pg.Client,
  stored: { importId: number; files: readonly FileReport[]; by: Actor | null },
): Promise<void> {
  const { actor, actorName, roles, origin, session, address } = stored.by ?? commandActor()
  const total = (name: "added" | "changed" | "withdrawn" | "held" | "rejected") =>
    stored.files.reduce((sum, file) => sum + file[name], 0)
  const detail = {
    ...{ added: total("added"), changed: total("changed"), withdrawn: total("withdrawn") },
    ...{ held: total("held"), rejected: total("rejected") },
  }
  await client.query(
    `insert into audit_entries (actor, actor_name, roles, origin, session, address, action, outcome, object, object_id, detail)
     values ($1, $2, $3, $4, $5, $6, 'import.store', 'done', 'import', $7, $8)`,
    [...[actor, actorName, roles, origin, session, address], String(stored.importId), JSON.stringify(detail)],
  )
}
