import "server-only"
import { z } from "zod"
import type { PlainDate } from "../domain/plain-date"
import { auditOutcomes, type AuditAction, type AuditOutcome } from "./audit-actions"
import { Prisma, type PrismaClient } from "./generated/client"

/** Which entries of the log are asked for; null asks for all. Days are whole days of the clinic's clock. */
export type AuditFilter = {
  from: PlainDate | null
  to: PlainDate | null
  /** Who acted, or whose account it was about. */
  actor: string | null
  action: AuditAction | null
  outcome: AuditOutcome | null
  /** The opaque id of somebody whom it showed, or who was asked for. */
  patient: string | null
  timeZone: string
}

const text = z.string().nullable()

const AuditRow = z.object({
  seq: z.bigint(),
  at: z.date(),
  actor: z.string(),
  actorName: z.string(),
  roles: z.array(z.string()),
  session: text,
  origin: z.string(),
  action: z.string(),
  object: text,
  objectId: text,
  purpose: text,
  outcome: z.enum(auditOutcomes),
  address: text,
  people: z.number(),
  /** Who it was, where it was one person. */
  person: text,
  detail: z.record(z.string(), z.json()),
  hash: z.string(),
})

export type AuditRow = z.infer<typeof AuditRow>

/** Entries of the log, latest first, from before an entry on. */
export async function listAuditEntries(
  client: PrismaClient,
  page: { filter: AuditFilter; take: number; before: bigint | null },
): Promise<AuditRow[]> {
  const { filter, take, before } = page
  const rows = await client.$queryRaw`
    select e.seq, e.at, e.actor, e.actor_name as "actorName", e.roles, e.session, e.origin, e.action, e.object,
      e.object_id as "objectId", e.purpose, e.outcome, e.address, e.people, e.detail, encode(e.hash, 'hex') as hash,
      case when e.people = 1
        then (select p.public_id::text from audit_people as p where p.people_hash = e.people_hash)
      end as person
    from audit_entries as e
    where ${matches(filter)} and (${before}::bigint is null or e.seq < ${before}::bigint)
    order by e.seq desc limit ${take}::int`
  return z.array(AuditRow).parse(rows)
}

export async function countAuditEntries(client: PrismaClient, filter: AuditFilter): Promise<number> {
  const rows =
    await client.$queryRaw`select count(*)::int as n from audit_entries as e where ${matches(filter)}`
  return z.array(z.object({ n: z.number() })).parse(rows)[0]?.n ?? 0
}

/** All entries that match, latest first, a thousand at a time, for a file of any length. */
export async function* allAuditEntries(
  client: PrismaClient,
  filter: AuditFilter,
): AsyncGenerator<AuditRow[]> {
  for (let before: bigint | null = null; ;) {
    const rows: AuditRow[] = await listAuditEntries(client, { filter, take: 1000, before })
    const end = rows.at(-1)
    if (!end) return
    yield rows
    before = end.seq
  }
}

export type AuditActor = { actor: string; name: string }

/** Everybody who stands in the log, by the name they had last. */
export async function listAuditActors(client: PrismaClient): Promise<AuditActor[]> {
  const rows = await client.$queryRaw`
    select e.actor, (array_agg(e.actor_name order by e.seq desc))[1] as name
    from audit_entries as e where e.actor <> 'nobody' group by e.actor order by name, e.actor`
  return z.array(z.object({ actor: z.string(), name: z.string() })).parse(rows)
}

/** The condition of a filter over `audit_entries as e`. */
export function matches(filter: AuditFilter): Prisma.Sql {
  const { actor, action, outcome, patient } = filter
  return Prisma.sql`${duringDays(filter)}
    and (${actor}::text is null or e.actor = ${actor} or (e.object = 'user' and e.object_id = ${actor}))
    and (${action}::text is null or e.action = ${action})
    and (${outcome}::text is null or e.outcome = ${outcome})
    and (${patient}::text is null or e.object_id = ${patient}
      or e.people_hash in (select p.people_hash from audit_people as p where p.public_id = ${patient}::uuid))`
}

/** Days of the clinic's clock over `audit_entries as e`. */
export function duringDays({
  from,
  to,
  timeZone,
}: Pick<AuditFilter, "from" | "to" | "timeZone">): Prisma.Sql {
  return Prisma.sql`(${from}::text is null or e.at >= ${from}::date::timestamp at time zone ${timeZone})
    and (${to}::text is null or e.at < (${to}::date + 1)::timestamp at time zone ${timeZone})`
}
