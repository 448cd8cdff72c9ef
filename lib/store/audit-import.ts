import "server-only"
import type pg from "pg"
import type { FileReport } from "../domain/import-report"
import { commandActor } from "./audit-actors"

/** Records that an extract was stored, over the import's own transaction and as its last step: both are kept or neither. */
export async function recordStored(
  client: pg.Client,
  stored: { importId: number; files: readonly FileReport[] },
): Promise<void> {
  const { actor, actorName, roles, origin } = commandActor()
  const total = (name: "added" | "changed" | "withdrawn" | "held" | "rejected") =>
    stored.files.reduce((sum, file) => sum + file[name], 0)
  const detail = {
    ...{ added: total("added"), changed: total("changed"), withdrawn: total("withdrawn") },
    ...{ held: total("held"), rejected: total("rejected") },
  }
  await client.query(
    `insert into audit_entries (actor, actor_name, roles, origin, action, outcome, object, object_id, detail)
     values ($1, $2, $3, $4, 'import.store', 'done', 'import', $5, $6)`,
    [actor, actorName, roles, origin, String(stored.importId), JSON.stringify(detail)],
  )
}
