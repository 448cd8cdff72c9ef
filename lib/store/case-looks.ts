import "server-only"
import { z } from "zod"
import type { EndedWhy, HeldReason, OutreachCase } from "../domain/outreach-case"
import { caseColumns, casesOf, lifeColumns, type StoredCase } from "./case-rows"
import type { Prisma } from "./generated/client"
import { caseLock, type CaseLine } from "./outreach-cases"

type Transaction = Prisma.TransactionClient

/** Where somebody with a reason stands in the order of a look at the data. */
export type PersonPlace = {
  patientId: string
  tier: string
  place: number
  belowBy: string | null
  site: string | null
  clinician: string | null
  language: string | null
  nextVisitOn: string | null
  isBookedSoon: boolean
}

/** What a look made of a case; without an id it is a new one. */
export type LookedCase = {
  id: number | null
  patientId: string
  before: OutreachCase | null
  after: OutreachCase
  line: CaseLine | null
  /** Why each reason is gone that held before. */
  gone: readonly { reason: string; why: EndedWhy }[]
}

/** Waits for the turn to look at the data, which lasts as long as the transaction. */
export async function waitForLook(transaction: Transaction): Promise<void> {
  await transaction.$executeRaw`select pg_advisory_xact_lock(${caseLock}::int, 0)`
}

/** Every case there is; nobody changes one until the transaction ends. */
export async function casesToLookAt(transaction: Transaction): Promise<StoredCase[]> {
  return casesOf(
    await transaction.$queryRaw`select ${caseColumns} from outreach_cases as c order by c.id for update of c`,
  )
}

const NewCases = z.array(z.object({ id: z.number(), patient_id: z.string() }))

/** Writes what a look made of the cases: the new and the changed, their reasons and their lines of history. */
export async function writeLook(
  transaction: Transaction,
  look: { cases: readonly LookedCase[]; on: string; now: Date; byName: string },
): Promise<void> {
  const { cases, on, now, byName } = look
  const opened = cases.filter((one) => one.id === null)
  const rows = await transaction.$queryRaw`
    insert into outreach_cases (patient_id, state, kept_from, assigned_to, snoozed_until, again_on, acknowledged_by,
      closed_on, closed_at, close_reason, held_for, held_urgent, round, opened_at, looked_on)
    select l.patient_id, l.state, l.kept_from, l.assigned_to, l.snoozed_until, l.again_on, l.acknowledged_by,
      l.closed_on, case when l.closed_on is not null then ${now}::timestamptz end, l.close_reason, l.held_for,
      l.held_urgent, l.round, ${now}::timestamptz, ${on}::date
    from jsonb_to_recordset(${json(opened.map(lifeRow))}::jsonb) as l (
      patient_id text, state text, kept_from text, assigned_to uuid, snoozed_until date, again_on date,
      acknowledged_by uuid, closed_on date, close_reason text, held_for text[], held_urgent text[], round int)
    returning id, patient_id`
  const idByPatient = new Map(NewCases.parse(rows).map((row) => [row.patient_id, row.id]))
  const known = cases.map((one) => ({ ...one, id: one.id ?? idByPatient.get(one.patientId) ?? 0 }))
  await updateLives(transaction, {
    cases: known.filter((one) => one.before !== null && isOtherLife(one)),
    now,
  })
  await writeReasons(transaction, { cases: known, on })
  await writeLines(transaction, { cases: known, now, byName })
}

async function updateLives(
  transaction: Transaction,
  { cases, now }: { cases: readonly LookedCase[]; now: Date },
): Promise<void> {
  await transaction.$executeRaw`
    update outreach_cases as c set
      state = l.state, kept_from = l.kept_from, assigned_to = l.assigned_to, snoozed_until = l.snoozed_until,
      again_on = l.again_on, acknowledged_by = l.acknowledged_by, closed_on = l.closed_on, close_reason = l.close_reason,
      held_for = l.held_for, held_urgent = l.held_urgent, version = c.version + 1, round = l.round,
      acknowledged_at = case when l.acknowledged_by is not null then c.acknowledged_at end,
      opened_at = case when l.round > c.round then ${now}::timestamptz else c.opened_at end,
      closed_at = case when l.closed_on is null then null else coalesce(c.closed_at, ${now}::timestamptz) end,
      closed_by = case when l.closed_on is null then null else c.closed_by end
    from jsonb_to_recordset(${json(cases.map(lifeRow))}::jsonb) as l (
      id int, state text, kept_from text, assigned_to uuid, snoozed_until date, again_on date, acknowledged_by uuid,
      closed_on date, close_reason text, held_for text[], held_urgent text[], round int)
    where c.id = l.id`
}

/** Reasons that are gone get their end, those that stay their latest fact, and those that came a row. */
async function writeReasons(
  transaction: Transaction,
  { cases, on }: { cases: readonly LookedCase[]; on: string },
): Promise<void> {
  const gone = cases.flatMap((one) => one.gone.map((reason) => ({ case_id: one.id, ...reason })))
  const held = cases.flatMap((one) => one.after.reasons.map((reason) => reasonRow(one, reason)))
  await transaction.$executeRaw`
    with held as materialized (
      select h.* from jsonb_to_recordset(${json(held)}::jsonb) as h (
        case_id int, patient_id text, reason text, is_urgent boolean, fact_on date, value double precision,
        second_value double precision, comparator text, falls_out_on date)
    ),
    gone as materialized (
      select g.* from jsonb_to_recordset(${json(gone)}::jsonb) as g (case_id int, reason text, why text)
    ),
    ended as (
      update outreach_case_reasons as r set
        ended_on = ${on}::date,
        ended_why = (select gone.why from gone where gone.case_id = r.case_id and gone.reason = r.reason)
      where r.ended_on is null
        and not exists (select from held where held.case_id = r.case_id and held.reason = r.reason)
    ),
    renewed as (
      update outreach_case_reasons as r set
        is_urgent = held.is_urgent, fact_on = held.fact_on, value = held.value, second_value = held.second_value,
        comparator = held.comparator, falls_out_on = held.falls_out_on
      from held
      where r.case_id = held.case_id and r.reason = held.reason and r.ended_on is null
        and (r.is_urgent, r.fact_on, r.value, r.second_value, r.comparator, r.falls_out_on)
          is distinct from (held.is_urgent, held.fact_on, held.value, held.second_value, held.comparator, held.falls_out_on)
    )
    insert into outreach_case_reasons
      (case_id, patient_id, reason, is_urgent, fact_on, value, second_value, comparator, falls_out_on, began_on)
    select held.case_id, held.patient_id, held.reason, held.is_urgent, held.fact_on, held.value, held.second_value,
      held.comparator, held.falls_out_on, ${on}::date
    from held
    where not exists (
      select from outreach_case_reasons as r
      where r.case_id = held.case_id and r.reason = held.reason and r.ended_on is null)`
}

async function writeLines(
  transaction: Transaction,
  { cases, now, byName }: { cases: readonly LookedCase[]; now: Date; byName: string },
): Promise<void> {
  const lines = cases.flatMap(({ id, patientId, after, line }) =>
    line === null
      ? []
      : [
          {
            ...line,
            case_id: id,
            patient_id: patientId,
            on_day: line.on,
            from: line.from,
            round: after.round,
          },
        ],
  )
  await transaction.$executeRaw`
    insert into outreach_events
      (case_id, patient_id, kind, on_day, at, by_name, from_state, to_state, round, why, began, ended)
    select l.case_id, l.patient_id, l.kind, l.on_day, ${now}::timestamptz, ${byName}, l."from", l."to", l.round, l.why,
      l.began, l.ended
    from jsonb_to_recordset(${json(lines)}::jsonb) as l (
      case_id int, patient_id text, kind text, on_day date, "from" text, "to" text, round int, why text, began jsonb, ended jsonb)`
}

/** Puts everybody in the order of a look: who has no reason any more has no place in it. */
export async function writePlaces(
  transaction: Transaction,
  { places, on }: { places: readonly PersonPlace[]; on: string },
): Promise<void> {
  await transaction.$executeRaw`
    with placed as materialized (
      select p.* from jsonb_to_recordset(${json(places)}::jsonb) as p (
        "patientId" text, tier text, place int, "belowBy" text, site text, clinician text, language text,
        "nextVisitOn" date, "isBookedSoon" boolean)
    )
    update outreach_cases as c set
      tier = placed.tier, place = placed.place, below_by = placed."belowBy", looked_on = ${on}::date,
      site = case when placed.place is null then c.site else placed.site end,
      clinician = case when placed.place is null then c.clinician else placed.clinician end,
      language = case when placed.place is null then c.language else placed.language end,
      next_visit_on = placed."nextVisitOn", is_booked_soon = coalesce(placed."isBookedSoon", false)
    from outreach_cases as own
    left join placed on placed."patientId" = own.patient_id
    where own.id = c.id
      and (
        (c.tier, c.place, c.below_by, c.looked_on, c.next_visit_on, c.is_booked_soon) is distinct from
          (placed.tier, placed.place, placed."belowBy", ${on}::date, placed."nextVisitOn", coalesce(placed."isBookedSoon", false))
        or placed.place is not null and (c.site, c.clinician, c.language) is distinct from
          (placed.site, placed.clinician, placed.language)
      )`
}

function isOtherLife({ before, after }: LookedCase): boolean {
  return before === null || json(lifeColumns({ case: before })) !== json(lifeColumns({ case: after }))
}

function lifeRow(one: LookedCase) {
  return { id: one.id, patient_id: one.patientId, ...lifeColumns({ case: one.after }) }
}

function reasonRow({ id, patientId }: LookedCase, held: HeldReason) {
  return {
    ...{ case_id: id, patient_id: patientId, reason: held.reason, is_urgent: held.isUrgent },
    ...{ fact_on: held.factOn, value: held.value, second_value: held.secondValue },
    ...{ comparator: held.comparator, falls_out_on: held.fallsOutOn },
  }
}

function json(value: unknown): string {
  return JSON.stringify(value)
}
