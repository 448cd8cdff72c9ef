import "server-only"
import { z } from "zod"
import type { Caller } from "../access/caller"
import type { Scope } from "../access/scope"
import {
  decisionKinds,
  decisionProblem,
  decisionTopics,
  type ClinicianDecision,
  type DecisionProblem,
  type DecisionTopic,
  type NewDecision,
} from "../domain/clinician-decisions"
import type { PlainDate } from "../domain/plain-date"
import { record, type AuditEntry } from "./audit"
import { actorOf } from "./audit-actors"
import type { Prisma, PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"
import { namesSomebody } from "./names-somebody"
import { recordsOfPerson } from "./person-records"

/** Whose decision, by whom and when; `on` is the day by the clinic's calendar. */
type Asked = { scope: Scope; publicId: string; caller: Caller; now: Date; on: PlainDate }

export type DecisionAnswer =
  | { is: "done"; id: number }
  | { is: "gone" }
  | { is: "outdated" }
  | { is: "names-person" }
  | { is: "refused"; why: DecisionProblem }

/** The decisions about a person under all their records, latest first; those undone or replaced among them. */
export function listDecisions(
  client: PrismaClient,
  { scope, publicId }: { scope: Scope; publicId: string },
): Promise<ClinicianDecision[]> {
  return inScope(client, scope, async (transaction) => {
    const records = await recordsOf(transaction, publicId)
    return decisionsOf(transaction, records)
  })
}

/** The decisions that nobody undid or replaced on one topic, by the record under which each was made. */
export function decisionsByRecord(
  client: PrismaClient,
  { scope, records, topic }: { scope: Scope; records: readonly string[]; topic: DecisionTopic },
): Promise<ReadonlyMap<string, ClinicianDecision>> {
  return inScope(client, scope, async (transaction) => {
    const rows = await transaction.clinicianDecision.findMany({
      where: { patientId: { in: [...records] }, topic, undoneAt: null },
      orderBy: { id: "asc" },
    })
    return new Map(rows.map((row) => [row.patientId, decisionOf(row)]))
  })
}

export type WrongData = Pick<ClinicianDecision, "id" | "topic" | "reason" | "note" | "madeOn" | "madeBy"> & {
  readonly publicId: string
}

/** The remarks that somebody's data are wrong which stand on a day, latest first, with how many there are. */
export function listWrongData(
  client: PrismaClient,
  { scope, on, take }: { scope: Scope; on: PlainDate; take: number },
): Promise<{ total: number; found: WrongData[] }> {
  return inScope(client, scope, async (transaction) => {
    const where = {
      ...{ kind: "wrong data", undoneAt: null },
      OR: [{ endsOn: null }, { endsOn: { gt: dayOf(on) } }],
    }
    const total = await transaction.clinicianDecision.count({ where })
    const include = { patient: { select: { publicId: true } } }
    const rows = await transaction.clinicianDecision.findMany({
      where,
      include,
      take,
      orderBy: { id: "desc" },
    })
    const found = rows.map(({ patient, ...row }) => ({ ...decisionOf(row), publicId: patient.publicId }))
    return { total, found }
  })
}

/**
 * Records a decision, which takes the place of the one that holds on the same topic. `shownId` is that one as the person saw
 * it, null for none: whoever was not shown the one that holds is told, and nothing is written.
 */
export async function makeDecision(
  client: PrismaClient,
  asked: Asked & { decision: NewDecision; shownId: number | null },
): Promise<DecisionAnswer> {
  const { decision, publicId, shownId, caller, now, on } = asked
  const why = decisionProblem(decision, on)
  if (why !== null) return { is: "refused", why }
  if (decision.note !== null && (await namesSomebody(client, decision.note))) return { is: "names-person" }
  return inScope(client, asked.scope, async (transaction) => {
    const patient = await lockedPatient(transaction, publicId)
    if (patient === null) return { is: "gone" }
    const records = await recordsOf(transaction, publicId)
    const holding = (await decisionsOf(transaction, records)).filter(
      (one) => one.topic === decision.topic && one.undoneOn === null,
    )
    if ((holding[0]?.id ?? null) !== shownId) return { is: "outdated" }
    const undone = { undoneOn: dayOf(on), undoneAt: now, undoneBy: caller.name }
    const which = { id: { in: holding.map((one) => one.id) } }
    await transaction.clinicianDecision.updateMany({ where: which, data: undone })
    const { topic, kind, reason, note, endsOn } = decision
    const { id } = await transaction.clinicianDecision.create({
      data: {
        ...{ patientId: patient, topic, kind, reason, note, endsOn: endsOn === null ? null : dayOf(endsOn) },
        ...{ madeOn: dayOf(on), madeAt: now, madeBy: caller.name, madeById: caller.userId },
      },
    })
    await transaction.clinicianDecision.updateMany({ where: which, data: { replacedById: id } })
    const detail = { topic, kind, reason, until: endsOn, replaces: holding.length }
    await record(transaction, entryOf(asked, { action: "decision.make", id, detail }))
    return { is: "done", id }
  })
}

/** Takes a decision back; what it replaced stays replaced, since its facts may be old. */
export async function undoDecision(
  client: PrismaClient,
  asked: Asked & { id: number },
): Promise<DecisionAnswer> {
  const { publicId, id, caller, now, on } = asked
  return inScope(client, asked.scope, async (transaction) => {
    const records = await recordsOf(transaction, publicId)
    const own = { id, patientId: { in: records } }
    if ((await transaction.clinicianDecision.count({ where: own })) === 0) return { is: "gone" }
    const { count } = await transaction.clinicianDecision.updateMany({
      where: { ...own, undoneAt: null },
      data: { undoneOn: dayOf(on), undoneAt: now, undoneBy: caller.name },
    })
    if (count === 0) return { is: "outdated" }
    await record(transaction, entryOf(asked, { action: "decision.undo", id, detail: {} }))
    return { is: "done", id }
  })
}

function entryOf(
  { caller, publicId }: Asked,
  {
    action,
    id,
    detail,
  }: { action: "decision.make" | "decision.undo"; id: number; detail: AuditEntry["detail"] },
): AuditEntry {
  return {
    ...{ by: actorOf(caller), action, object: "clinician decision", objectId: String(id) },
    ...{ people: [publicId], detail },
  }
}

const Locked = z.array(z.object({ patient_id: z.string() }))

/** The number of a person, whose decisions nobody else makes until the transaction ends; null for nobody in scope. */
async function lockedPatient(
  transaction: Prisma.TransactionClient,
  publicId: string,
): Promise<string | null> {
  const [patient] = Locked.parse(
    await transaction.$queryRaw`
      select p.patient_id, pg_advisory_xact_lock(${decisionLock}::int, hashtext(p.patient_id))::text
      from patients as p where p.public_id = ${publicId}::uuid`,
  )
  return patient?.patient_id ?? null
}

/** Locks of the database: who makes decisions about one person. */
const decisionLock = 717_105

async function recordsOf(transaction: Prisma.TransactionClient, publicId: string): Promise<string[]> {
  const patient = await transaction.patient.findUnique({ where: { publicId } })
  if (patient === null) return []
  return (await recordsOfPerson(transaction, patient.patientId)).map((one) => one.patientId)
}

const Topic = z.enum(decisionTopics)
const Kind = z.enum(decisionKinds)

async function decisionsOf(
  transaction: Prisma.TransactionClient,
  records: readonly string[],
): Promise<ClinicianDecision[]> {
  const rows = await transaction.clinicianDecision.findMany({
    where: { patientId: { in: [...records] } },
    orderBy: { id: "desc" },
  })
  return rows.map(decisionOf)
}

function decisionOf({
  topic,
  kind,
  madeOn,
  endsOn,
  undoneOn,
  ...row
}: Prisma.ClinicianDecisionGetPayload<object>): ClinicianDecision {
  return {
    ...{ id: row.id, reason: row.reason, note: row.note, madeAt: row.madeAt, madeBy: row.madeBy },
    ...{ undoneBy: row.undoneBy, replacedById: row.replacedById },
    ...{ topic: Topic.parse(topic), kind: Kind.parse(kind), madeOn: plain(madeOn) },
    ...{ endsOn: endsOn && plain(endsOn), undoneOn: undoneOn && plain(undoneOn) },
  }
}

function plain(day: Date): PlainDate {
  return day.toISOString().slice(0, 10)
}

function dayOf(day: PlainDate): Date {
  return new Date(`${day}T00:00:00Z`)
}
