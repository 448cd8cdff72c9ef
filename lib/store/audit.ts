import "server-only"
import { createHash } from "node:crypto"
import { z } from "zod"
import type { AuditAction, AuditOutcome } from "./audit-actions"
import type { Actor } from "./audit-actors"
import type { Prisma } from "./generated/client"
import { type PrismaClient } from "./generated/client"

/** One thing somebody saw or did. No name and no value of a patient belongs into it: people are opaque ids. */
export type AuditEntry = {
  by: Actor
  action: AuditAction
  /** "done" when nothing else is said. */
  outcome?: AuditOutcome
  /** What kind of thing it was about and which one, when that is no patient. */
  object?: string
  objectId?: string
  /** Why, where a person gave a reason. */
  purpose?: string
  /** The public ids of whoever it showed. */
  people?: readonly string[]
  detail?: Readonly<Record<string, string | number | boolean | null>>
}

type Client = PrismaClient | Prisma.TransactionClient

const Seq = z.array(z.object({ seq: z.bigint() }))

/**
 * Adds one entry to the log and answers its number. A change records itself over its own transaction, as its last step:
 * the log is locked for other writers until the transaction ends. A read records itself before it hands anything out; what
 * cannot be recorded throws and so is not handed out.
 */
export async function record(client: Client, entry: AuditEntry): Promise<bigint> {
  const { by, action, outcome = "done", object, objectId, purpose, detail = {} } = entry
  const people = sortedIds(entry.people ?? [])
  const peopleHash = people.length === 0 ? null : hashPeople(people)
  const rows = await client.$queryRaw`
    with kept as (
      insert into audit_people (people_hash, public_id)
      select ${peopleHash}::bytea, person.id
      from unnest(${people}::uuid[]) as person (id)
      where not exists (select from audit_people as known where known.people_hash = ${peopleHash}::bytea)
      on conflict do nothing
    )
    insert into audit_entries
      (actor, actor_name, roles, session, origin, address, action, outcome, object, object_id, purpose, people, people_hash, detail)
    values
      (${by.actor}, ${by.actorName}, ${[...by.roles]}::text[], ${by.session}, ${by.origin}, ${by.address},
       ${action}, ${outcome}, ${object ?? null}, ${objectId ?? null}, ${purpose ?? null},
       ${people.length}::int, ${peopleHash}::bytea, ${JSON.stringify(detail)}::jsonb)
    returning seq`
  const [row] = Seq.parse(rows)
  if (!row) throw new Error("the audit log gave an entry no number")
  return row.seq
}

/** Makes a change and records it, both or neither. What the change answers decides what is recorded; null records nothing. */
export async function changeAndRecord<Answer>(
  client: PrismaClient,
  change: (transaction: Prisma.TransactionClient) => Promise<Answer>,
  entryOf: (answer: Answer) => AuditEntry | null,
): Promise<Answer> {
  return client.$transaction(async (transaction) => {
    const answer = await change(transaction)
    const entry = entryOf(answer)
    if (entry) await record(transaction, entry)
    return answer
  })
}

/**
 * Records a look that a screen repeats by itself every second while something goes on: one entry a minute, session and
 * set of people.
 */
export async function recordRepeated(client: Client, entry: AuditEntry): Promise<void> {
  const people = sortedIds(entry.people ?? [])
  const peopleHash = people.length === 0 ? null : hashPeople(people)
  const known = await client.auditEntry.findFirst({
    where: {
      ...{ session: entry.by.session, action: entry.action, outcome: entry.outcome ?? "done" },
      ...{ object: entry.object ?? null, objectId: entry.objectId ?? null, peopleHash },
      at: { gt: new Date(Date.now() - repeatMs) },
    },
    select: { seq: true },
  })
  if (!known) await record(client, entry)
}

const repeatMs = 60_000

/** SHA-256 of sorted ids, one a line: names a set of people. */
export function hashPeople(sorted: readonly string[]): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash("sha256").update(sorted.join("\n"), "utf8").digest())
}

function sortedIds(ids: readonly string[]): string[] {
  return [...new Set(ids.map((id) => id.toLowerCase()))].sort()
}
