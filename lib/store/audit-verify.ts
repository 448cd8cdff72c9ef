import "server-only"
import { z } from "zod"
import { hashPeople } from "./audit"
import { readAnchors, type Anchor } from "./audit-anchors"
import type { AuditFault } from "./audit-faults"
import { HashedEntry, hashOfEntry } from "./audit-text"
import type { Prisma, PrismaClient } from "./generated/client"

export type AuditState = { entries: number; anchors: number; first: AuditFault | null }

type Walk = {
  transaction: Prisma.TransactionClient
  anchors: readonly Anchor[]
  entries: number
  last: bigint
  hash: string
  /** The last anchor that the log agrees with. */
  agreed: bigint
  /** Whether the log tells of a moment after which there is a file of anchors. */
  wasAnchored: boolean
  /** What is kept under each hash of people seen so far: how many, or null where they are others. */
  peopleByHash: Map<string, number | null>
}

const perPage = 2000
const lowest = -(2n ** 63n)
const patience = { isolationLevel: "RepeatableRead", maxWait: 10_000, timeout: 30 * 60_000 } as const

/**
 * Recomputes the whole log here, without the database's own functions, and answers the first thing that is wrong: an entry
 * missing, altered, in another place or with other people, kept people of no entry, or a log that does not agree with what
 * was noted of it outside the database, as one with its end cut off.
 */
export async function verifyAudit(client: PrismaClient, dataDir: string): Promise<AuditState> {
  // Before the log: what is noted while the log is read must not look as if the log lacked it.
  const anchors = readAnchors(dataDir)
  return client.$transaction(async (transaction) => {
    const walk: Walk = {
      ...{ transaction, anchors: anchors ?? [], entries: 0, last: 0n, hash: "00".repeat(32), agreed: 0n },
      ...{ wasAnchored: false, peopleByHash: new Map() },
    }
    const first = (await faultOfEntries(walk)) ?? faultOfEnd(walk) ?? (await faultOfRest(walk))
    const isGone = anchors === null && walk.wasAnchored
    return {
      ...{ entries: walk.entries, anchors: walk.anchors.length },
      first: first ?? (isGone ? { seq: null, fault: "anchors gone" } : null),
    }
  }, patience)
}

async function faultOfEntries(walk: Walk): Promise<AuditFault | null> {
  const anchoredBySeq = new Map(
    walk.anchors.filter((one) => one.isGenuine).map(({ seq, hash }) => [seq, hash]),
  )
  for (let after = lowest; ;) {
    const page = await pageAfter(walk.transaction, after)
    await learnPeople(walk, page)
    for (const entry of page) {
      const fault = faultOfEntry(walk, entry) ?? faultOfAnchor(walk, entry, anchoredBySeq.get(entry.seq))
      if (fault) return fault
    }
    const end = page.at(-1)
    if (!end) return null
    after = end.seq
  }
}

async function pageAfter(transaction: Prisma.TransactionClient, after: bigint): Promise<HashedEntry[]> {
  const rows = await transaction.$queryRaw`
    select seq, at, actor, actor_name, roles, session, origin, action, object, object_id, purpose, outcome, address,
      people, people_hash, detail::text as detail, prev, hash
    from audit_entries where seq > ${after} order by seq limit ${perPage}`
  return z.array(HashedEntry).parse(rows)
}

function faultOfEntry(walk: Walk, entry: HashedEntry): AuditFault | null {
  const { seq } = entry
  const expected = walk.last + 1n
  const hash = Buffer.from(entry.hash).toString("hex")
  if (seq > expected) return { seq: expected, fault: "missing" }
  if (seq < expected || hash !== hashOfEntry(entry)) return { seq, fault: "altered" }
  if (Buffer.from(entry.prev).toString("hex") !== walk.hash)
    return { seq, fault: "not tied to the one before" }
  const kept = entry.people_hash ? walk.peopleByHash.get(Buffer.from(entry.people_hash).toString("hex")) : 0
  if (kept !== entry.people) return { seq, fault: "other people" }
  walk.entries += 1
  walk.last = seq
  walk.hash = hash
  walk.wasAnchored ||= entry.action === "site.start" || entry.action === "audit.verify"
  return null
}

/** What comes after an agreed anchor, up to one that the log does not agree with, was written anew. */
function faultOfAnchor(walk: Walk, entry: HashedEntry, anchored: string | undefined): AuditFault | null {
  if (anchored === undefined) return null
  if (anchored !== walk.hash)
    return { seq: walk.agreed + 1n, upTo: entry.seq, fault: "not what was anchored" }
  walk.agreed = entry.seq
  return null
}

/** An anchor beyond the last entry: what there was is cut off. */
function faultOfEnd(walk: Walk): AuditFault | null {
  const isCutOff = walk.anchors.some((one) => one.isGenuine && one.seq > walk.last)
  return isCutOff ? { seq: walk.last + 1n, fault: "missing" } : null
}

async function faultOfRest({ transaction, anchors }: Walk): Promise<AuditFault | null> {
  if (anchors.some((one) => !one.isGenuine)) return { seq: null, fault: "anchor altered" }
  const rows = await transaction.$queryRaw`
    select p.people_hash from audit_people as p
    where not exists (select from audit_entries as e where e.people_hash = p.people_hash) limit 1`
  return z.array(z.unknown()).parse(rows).length > 0 ? { seq: null, fault: "people of no entry" } : null
}

const Kept = z.object({ people_hash: z.instanceof(Uint8Array), ids: z.array(z.string()) })

/** Recomputes the sets of people that the entries of a page name and that were not looked at yet. */
async function learnPeople({ transaction, peopleByHash }: Walk, page: readonly HashedEntry[]): Promise<void> {
  const named = page
    .flatMap((entry) => entry.people_hash ?? [])
    .map((hash) => Buffer.from(hash).toString("hex"))
  const fresh = [...new Set(named)].filter((hex) => !peopleByHash.has(hex))
  if (fresh.length === 0) return
  const rows = await transaction.$queryRaw`
    select p.people_hash, array_agg(p.public_id::text) as ids
    from audit_people as p
    where p.people_hash in (select decode(asked.hex, 'hex') from unnest(${fresh}::text[]) as asked (hex))
    group by p.people_hash`
  for (const { people_hash: hash, ids } of z.array(Kept).parse(rows)) {
    const hex = Buffer.from(hash).toString("hex")
    const isSame = Buffer.from(hashPeople(ids.toSorted())).toString("hex") === hex
    peopleByHash.set(hex, isSame ? ids.length : null)
  }
}
