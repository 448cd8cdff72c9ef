import "server-only"
import { createHash } from "node:crypto"
import { z } from "zod"

const Bytes = z.instanceof(Uint8Array)
const text = z.string().nullable()

/** An entry as it is hashed; `detail` is the text of the JSON as the database writes it. */
export const HashedEntry = z.object({
  seq: z.bigint(),
  at: z.date(),
  actor: z.string(),
  actor_name: z.string(),
  roles: z.array(z.string()),
  session: text,
  origin: z.string(),
  action: z.string(),
  object: text,
  object_id: text,
  purpose: text,
  outcome: z.string(),
  address: text,
  people: z.number(),
  people_hash: Bytes.nullable(),
  detail: z.string(),
  prev: Bytes,
  hash: Bytes,
})

export type HashedEntry = z.infer<typeof HashedEntry>

/**
 * SHA-256 over the hash of the entry before and every column in the order of the table, each as its length in bytes, a
 * colon, the text and a comma, or "-," where there is none. Written a second time beside the database's own function, so that
 * whoever changes that one changes nothing here.
 */
export function hashOfEntry(entry: HashedEntry): string {
  const peopleHash = entry.people_hash && Buffer.from(entry.people_hash).toString("hex")
  const fields = [
    ...[String(entry.seq), entry.at.toISOString(), entry.actor, entry.actor_name, entry.roles.join(" ")],
    ...[entry.session, entry.origin, entry.action, entry.object, entry.object_id, entry.purpose],
    ...[entry.outcome, entry.address, String(entry.people), peopleHash, entry.detail],
  ]
  return createHash("sha256").update(entry.prev).update(fields.map(fieldOf).join(""), "utf8").digest("hex")
}

function fieldOf(field: string | null): string {
  return field === null ? "-," : `${Buffer.byteLength(field)}:${field},`
}
