import { csvLines } from "./csv"

/** An entry of the audit log as a file has it. */
type Entry = {
  seq: bigint
  at: Date
  actor: string
  actorName: string
  roles: readonly string[]
  session: string | null
  origin: string
  action: string
  object: string | null
  objectId: string | null
  purpose: string | null
  outcome: string
  address: string | null
  people: number
  person: string | null
  detail: Readonly<Record<string, unknown>>
  hash: string
}

const columns = [
  ...["seq", "at", "actor", "actor_name", "roles", "session", "origin", "action", "object", "object_id"],
  ...["purpose", "outcome", "address", "people", "person", "detail", "hash"],
]

/** The file of entries piece by piece, its head line first. People are opaque ids; a patient's name is nowhere in the log. */
export async function* auditCsv(pages: AsyncIterable<readonly Entry[]>): AsyncGenerator<string> {
  yield csvLines([columns])
  for await (const page of pages) yield csvLines(page.map(rowOf))
}

function rowOf(entry: Entry) {
  return [
    ...[String(entry.seq), entry.at.toISOString(), entry.actor, entry.actorName, entry.roles.join(" ")],
    ...[entry.session, entry.origin, entry.action, entry.object, entry.objectId],
    ...[entry.purpose, entry.outcome, entry.address, entry.people, entry.person],
    ...[JSON.stringify(entry.detail), entry.hash],
  ]
}
