import "server-only"
import { z } from "zod"
import type { PrismaClient } from "./generated/client"

/** What is wrong at one entry of the log. */
export type AuditFault = {
  seq: bigint
  fault: "missing" | "altered" | "not tied to the one before" | "other people"
}

export type AuditState = { entries: number; first: AuditFault | null }

const Found = z.array(
  z.object({ entries: z.number(), seq: z.bigint().nullable(), fault: z.string().nullable() }),
)

/**
 * Recomputes the whole chain in the database and answers the first entry that is wrong: one whose number does not follow
 * the number before, whose text does not give its hash, that is not tied to the hash before, or whose people are not those
 * its hash names. Entries cut off at the end leave a shorter chain that is whole by itself.
 */
export async function verifyAudit(client: PrismaClient): Promise<AuditState> {
  const rows = await client.$queryRaw`
    with chain as (
      select
        e.seq, e.prev, e.hash, e.people, e.people_hash,
        lag(e.seq, 1, 0::bigint) over (order by e.seq) as seq_before,
        lag(e.hash, 1, decode(repeat('00', 32), 'hex')) over (order by e.seq) as hash_before,
        sha256(e.prev || convert_to(audit_text(e), 'UTF8')) as hash_now
      from audit_entries as e
    ),
    kept as (
      select
        p.people_hash,
        count(*) as people,
        sha256(convert_to(string_agg(p.public_id::text, chr(10) order by p.public_id::text collate "C"), 'UTF8')) as hash_now
      from audit_people as p
      group by p.people_hash
    ),
    faults as (
      select
        c.seq,
        case
          when c.seq <> c.seq_before + 1 then 'missing'
          when c.hash <> c.hash_now then 'altered'
          when c.prev <> c.hash_before then 'not tied to the one before'
          when c.people_hash is not null
            and (k.hash_now is distinct from c.people_hash or k.people <> c.people) then 'other people'
        end as fault
      from chain as c
        left join kept as k on k.people_hash = c.people_hash
    )
    select
      (select count(*)::int from audit_entries) as entries,
      f.seq,
      f.fault
    from (select 1) as one
      left join (select seq, fault from faults where fault is not null order by seq limit 1) as f on true`
  const [row] = Found.parse(rows)
  if (!row) throw new Error("the audit log gave no answer")
  return {
    entries: row.entries,
    first: row.seq === null ? null : { seq: row.seq, fault: faultOf(row.fault) },
  }
}

function faultOf(word: string | null): AuditFault["fault"] {
  if (word === "missing" || word === "altered" || word === "other people") return word
  return "not tied to the one before"
}
