import "server-only"
import { z } from "zod"
import type { Caller } from "../access/caller"
import type { Scope } from "../access/scope"
import type { HeldReason, OutreachCase } from "../domain/outreach-case"
import { record } from "./audit"
import { actorOf } from "./audit-actors"
import { lastLine, type KeptAct, type LastLine } from "./case-last-line"
import { caseColumns, casesOf, lifeColumns, type StoredCase } from "./case-rows"
import { type Prisma, type PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"
import { namesSomebody } from "./names-somebody"

/** A line of history, with what a person gave beside. */
export type CaseLine = {
  kind: string
  on: string
  from: string | null
  to: string
  why: string | null
  began: readonly HeldReason[]
  ended: readonly HeldReason[]
}

export type LineExtra = {
  channel?: string | null
  outcome?: string | null
  until?: string | null
  assignedTo?: string | null
  note?: string | null
}

/** What the rules make of a case. */
export type Decision<Refusal> =
  { ok: true; case: OutreachCase; line: CaseLine | null } | { ok: false; why: Refusal }

export type CaseAnswer<Refusal> =
  | { is: "done"; id: number; version: number }
  | { is: "outdated"; version: number; case: OutreachCase; last: LastLine | null }
  | { is: "gone" }
  | { is: "names-person" }
  | { is: "refused"; why: Refusal }

/** Who does it, within whose patients, and when. */
export type CaseWork = { caller: Caller; scope: Scope; now: Date }

/** Locks of the database: the one look at the data that may write cases. */
export const caseLock = 717_104

/**
 * Changes one case as `decide` says, with its line of history and its audit entry, all or nothing. Whoever saw an earlier
 * version is told and changes nothing; a note that names a patient is refused.
 */
export async function changeCase<Refusal>(
  client: PrismaClient,
  asked: CaseWork & {
    id: number
    version: number
    extra: LineExtra
    decide: (before: OutreachCase, last: KeptAct | null) => Decision<Refusal>
  },
): Promise<CaseAnswer<Refusal>> {
  const { id, version, extra, scope } = asked
  if (extra.note && (await namesSomebody(client, extra.note))) return { is: "names-person" }
  return inScope(client, scope, async (transaction) => {
    const [found] = casesOf(
      await transaction.$queryRaw`select ${caseColumns} from outreach_cases as c where c.id = ${id}::int for update of c`,
    )
    if (!found) return { is: "gone" }
    const last = await lastLine(transaction, id)
    if (found.version !== version)
      return { is: "outdated", version: found.version, case: found.case, last: last?.told ?? null }
    return write(transaction, {
      ...asked,
      found,
      undoesId: last?.id ?? null,
      decide: (before) => asked.decide(before, last?.act ?? null),
    })
  })
}

const Id = z.array(z.object({ id: z.number() }))

/**
 * Gives somebody the first in the order whom nobody has, who is to be contacted on that day, is not urgent and has no visit
 * soon. Two who ask at once get two people; null when there is nobody left.
 */
export async function takeFirst<Refusal>(
  client: PrismaClient,
  asked: CaseWork & { on: string; decide: (before: OutreachCase) => Decision<Refusal> },
): Promise<CaseAnswer<Refusal> | null> {
  const { scope, on } = asked
  return inScope(client, scope, async (transaction) => {
    // A look at the data holds the rows it writes: whoever asks meanwhile waits, and is not told that nobody is left.
    await transaction.$executeRaw`select pg_advisory_xact_lock_shared(${caseLock}::int, 0)`
    const [first] = Id.parse(
      await transaction.$queryRaw`
        select c.id from outreach_cases as c
        where c.state = 'open' and c.kept_from is null and c.assigned_to is null and c.place is not null
          and c.tier <> 'urgent' and not c.is_booked_soon and (c.again_on is null or c.again_on <= ${on}::date)
        order by c.place limit 1 for update skip locked`,
    )
    if (!first) return null
    const [found] = casesOf(
      await transaction.$queryRaw`select ${caseColumns} from outreach_cases as c where c.id = ${first.id}::int`,
    )
    return found ? write(transaction, { ...asked, found, extra: {}, undoesId: null }) : null
  })
}

async function write<Refusal>(
  transaction: Prisma.TransactionClient,
  work: CaseWork & {
    found: StoredCase
    extra: LineExtra
    undoesId: bigint | null
    decide: (before: OutreachCase) => Decision<Refusal>
  },
): Promise<CaseAnswer<Refusal>> {
  const { found, extra, caller, now } = work
  const decision = work.decide(found.case)
  if (!decision.ok) return { is: "refused", why: decision.why }
  const { line } = decision
  if (line === null) return { is: "done", id: found.id, version: found.version }
  await updateLife(transaction, { found, after: decision.case, caller, now })
  await transaction.outreachEvent.create({
    data: {
      ...{ caseId: found.id, patientId: found.patientId, kind: line.kind, onDay: dayOf(line.on), at: now },
      ...{ byId: caller.userId, byName: caller.name, fromState: line.from, toState: line.to },
      ...{ round: decision.case.round, why: line.why, began: [...line.began], ended: [...line.ended] },
      ...{ channel: extra.channel, outcome: extra.outcome, note: extra.note, assignedTo: extra.assignedTo },
      untilOn: extra.until ? dayOf(extra.until) : null,
      life: { before: found.case, after: decision.case },
      undoesId: line.kind === "take back" ? work.undoesId : null,
    },
    select: { id: true },
  })
  const patient = await transaction.patient.findUnique({ where: { patientId: found.patientId } })
  await record(transaction, {
    ...{ by: actorOf(caller), action: "case.work", object: "case", objectId: String(found.id) },
    people: patient ? [patient.publicId] : [],
    detail: { kind: line.kind, to: line.to, channel: extra.channel ?? null, outcome: extra.outcome ?? null },
  })
  return { is: "done", id: found.id, version: found.version + 1 }
}

async function updateLife(
  transaction: Prisma.TransactionClient,
  of: { found: StoredCase; after: OutreachCase; caller: Caller; now: Date },
): Promise<void> {
  const { found, after, caller, now } = of
  const life = lifeColumns({ case: after })
  const isNewlySeen = after.acknowledgedBy !== null && found.case.acknowledgedBy === null
  const isNewlyClosed = after.closed !== null && found.case.closed === null
  await transaction.outreachCase.update({
    where: { id: found.id },
    data: {
      ...{
        state: life.state,
        assignedTo: life.assigned_to,
        round: life.round,
        closeReason: life.close_reason,
      },
      snoozedUntil: life.snoozed_until ? dayOf(life.snoozed_until) : null,
      againOn: life.again_on ? dayOf(life.again_on) : null,
      closedOn: life.closed_on ? dayOf(life.closed_on) : null,
      ...{ heldFor: life.held_for, heldUrgent: life.held_urgent, version: { increment: 1 } },
      acknowledgedBy: life.acknowledged_by,
      ...(after.acknowledgedBy === null ? { acknowledgedAt: null } : {}),
      ...(isNewlySeen ? { acknowledgedAt: now } : {}),
      ...(isNewlyClosed ? { closedAt: now, closedBy: caller.name } : {}),
      ...(after.closed === null ? { closedAt: null, closedBy: null } : {}),
      ...(after.round > found.case.round ? { openedAt: now } : {}),
    },
    select: { id: true },
  })
}

function dayOf(plainDate: string): Date {
  return new Date(`${plainDate}T00:00:00Z`)
}
