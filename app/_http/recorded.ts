import "server-only"
import type { Caller } from "../../lib/access/caller"
import { record, recordRepeated, type AuditEntry } from "../../lib/store/audit"
import { actorOf } from "../../lib/store/audit-actors"
import { store } from "../../lib/store/client"

type What = Omit<AuditEntry, "by">

/** Records what is about to be handed out to the caller; what cannot be recorded throws, and is not handed out. */
export async function recorded(caller: Caller, what: What): Promise<void> {
  await record(store(), { by: actorOf(caller), ...what })
}

/** The same for a screen that may ask again by itself: one entry a minute. */
export async function recordedOnce(caller: Caller, what: What): Promise<void> {
  await recordRepeated(store(), { by: actorOf(caller), ...what })
}
