import { z } from "zod"
import { plainToday } from "../domain/plain-date"
import type { Settings } from "../domain/settings"
import { reasonList } from "../domain/reason-ids"
import type { EndedWhy, HeldReason, OutreachCase } from "../domain/outreach-case"
import { wholeClinic } from "../access/scope"
import { askOn, onDay, onSnapshot } from "../engine/run"
import type { DataEvent } from "../outreach/case-events"
import { next } from "../outreach/case-life"
import { factsNow, pairsOf } from "../outreach/facts-now"
import { outreachList, type OutreachRow } from "../outreach/outreach-list"
import { record } from "../store/audit"
import { commandActor } from "../store/audit-actors"
import {
  casesToLookAt,
  waitForLook,
  writeLook,
  writePlaces,
  type LookedCase,
  type PersonPlace,
} from "../store/case-looks"
import type { StoredCase } from "../store/case-rows"
import type { PrismaClient } from "../store/generated/client"

const patience = { maxWait: 120_000, timeout: 10 * 60_000 } as const

const clockOfClinic = {
  sql: `select m.time_zone from snapshot_meta as m`,
  Row: z.object({ time_zone: z.string() }),
}
const runningDay = {
  sql: `select d.as_of from as_of_dates as d where d.is_running`,
  Row: z.object({ as_of: z.string() }),
}

const reasonsOff = {
  sql: `select t.outreach_reasons_off as reasons from settings as t`,
  Row: z.object({ reasons: z.string() }),
}

const mergedRecords = {
  sql: `select i.patient_id, i.record_id from identities as i where i.is_merged order by i.patient_id, i.record_id`,
  Row: z.object({ patient_id: z.string(), record_id: z.string() }),
}

/**
 * Looks at the figures just built and brings every case up to date with them: opens, closes, wakes and puts in order. One look
 * at a time writes; the same look twice changes nothing. It is one transaction, so that nobody sees half of it. `past` is an
 * earlier day, computed by itself: the demo clinic gets its history by such looks, in turn.
 */
export async function reconcileCases(options: {
  client: PrismaClient
  dataDir: string
  now: Date
  past?: PastDay
}): Promise<void> {
  const { client, dataDir, now, past } = options
  await client.$transaction(async (transaction) => {
    await waitForLook(transaction)
    const cases = await casesToLookAt(transaction)
    const look = await lookAtSnapshot({ dataDir, now, cases, past })
    const { rows, on } = look
    const people = byPerson(rows)
    const looked = [...lookAtKnown({ ...look, cases, people }), ...lookAtNew({ ...look, cases, people })]
    const byName = commandActor().actorName
    await writeLook(transaction, { cases: looked, on, now, byName })
    await writePlaces(transaction, { places: [...people.values()].flatMap(placeOf), on })
    const told = looked.flatMap((one) => (one.line === null ? [] : [one.line.kind]))
    const count = (kind: string) => told.filter((one) => one === kind).length
    await record(transaction, {
      ...{ by: commandActor(), action: "cases.update", object: "cases" },
      detail: { opened: count("opened"), closed: count("closed itself"), reopened: count("reopened") },
    })
  }, patience)
}

type Look = { dataDir: string; now: Date; cases: readonly StoredCase[]; past: PastDay | undefined }
type PastDay = { day: string; settings: Settings }
type Facts = ReadonlyMap<string, readonly HeldReason[]>
type People = ReadonlyMap<string, readonly OutreachRow[]>

function byPerson<Row extends { patient_id: string }>(rows: readonly Row[]): Map<string, Row[]> {
  const people = new Map<string, Row[]>()
  for (const row of rows) {
    const own = people.get(row.patient_id)
    if (own) own.push(row)
    else people.set(row.patient_id, [row])
  }
  return people
}

/** The reasons of the running day, and what stands now where one of a case is gone. */
function lookAtSnapshot({ dataDir, now, cases, past }: Look) {
  const place = { dataDir, scope: wholeClinic }
  const within: typeof onSnapshot = past
    ? (_, work) => onDay({ ...place, asOf: past.day, settings: past.settings, isOfToday: true }, work)
    : onSnapshot
  return within(place, async (connection) => {
    const [clock] = await askOn(connection, clockOfClinic)
    const [running] = await askOn(connection, runningDay)
    const on = past?.day ?? plainToday(now, clock?.time_zone ?? "UTC")
    const asOf = past?.day ?? running?.as_of ?? on
    const rows = await askOn(connection, outreachList, { as_of: asOf, today: on })
    const pairs = pairsOf(goneFrom(cases, rows))
    const facts = pairs === "" ? [] : await askOn(connection, factsNow, { as_of: asOf, pairs })
    const merged = await askOn(connection, mergedRecords)
    const [off] = await askOn(connection, reasonsOff)
    const ended = [...byPerson(facts)].map(([patientId, own]) => [patientId, own.map(factOf)] as const)
    const records = [...byPerson(merged)].map(
      ([patientId, own]) => [patientId, own.map((one) => one.record_id)] as const,
    )
    const switchedOff = reasonList(off?.reasons ?? "")
    const followed = new Set(facts.filter((fact) => fact.is_followed).map((fact) => fact.patient_id))
    return { rows, on, switchedOff, followed, ended: new Map(ended), recordsBy: new Map(records) }
  })
}

/** What held before and does not now. */
function goneFrom(cases: readonly StoredCase[], rows: readonly OutreachRow[]) {
  const held = new Set(rows.map((row) => pairsOf([{ patientId: row.patient_id, reason: row.reason }])))
  return cases
    .flatMap(({ patientId, case: one }) => one.reasons.map(({ reason }) => ({ patientId, reason })))
    .filter((pair) => !held.has(pairsOf([pair])))
}

/** Every case there is, with what the look makes of it. */
function lookAtKnown(look: {
  cases: readonly StoredCase[]
  people: People
  ended: Facts
  followed: ReadonlySet<string>
  switchedOff: readonly string[]
  on: string
}): LookedCase[] {
  return look.cases.map(({ id, patientId, case: before }) => {
    const event = eventOf(look.people.get(patientId) ?? [], { before, on: look.on })
    const ended = look.ended.get(patientId) ?? []
    const verdict = next(before, { ...event, ended, switchedOff: look.switchedOff })
    if (!verdict.ok) throw new Error("a look at the data is never refused")
    const gone = before.reasons
      .filter(({ reason }) => !event.reasons.some((held) => held.reason === reason))
      .map(({ reason }) => ({ reason, why: whyGone(reason, { ...look, patientId }) }))
    return { id, patientId, before, after: verdict.case, line: verdict.line, gone }
  })
}

function whyGone(
  reason: string,
  of: { patientId: string; followed: ReadonlySet<string>; switchedOff: readonly string[] },
): EndedWhy {
  if (of.switchedOff.includes(reason)) return "switched off"
  return of.followed.has(of.patientId) ? "by the facts" : "not followed"
}

/** Who has no case yet goes on with that of a record that was merged into theirs: a refusal stays one under another number. */
function lookAtNew(look: {
  cases: readonly StoredCase[]
  people: People
  recordsBy: ReadonlyMap<string, readonly string[]>
  on: string
}): LookedCase[] {
  const caseBy = new Map(look.cases.map((one) => [one.patientId, one.case]))
  return [...look.people].flatMap(([patientId, rows]) => {
    if (caseBy.has(patientId)) return []
    const [before = null] = (look.recordsBy.get(patientId) ?? []).flatMap(
      (record) => caseBy.get(record) ?? [],
    )
    const verdict = next(before, eventOf(rows, { before: null, on: look.on }))
    if (!verdict.ok) return []
    const { case: after } = verdict
    const opened = { kind: "opened", on: look.on, from: null, to: after.state, began: after.reasons } as const
    const line = { ...opened, why: after.closed?.reason ?? null, ended: [] }
    return [{ id: null, patientId, before: null, after, line, gone: [] }]
  })
}

/** Who has no reason any more is kept from contact by what was known last; they are shown to nobody as it is. */
function eventOf(rows: readonly OutreachRow[], of: { before: OutreachCase | null; on: string }): DataEvent {
  const [first] = rows
  const days = [first?.last_visit_on ?? null, ...rows.map((row) => row.fact_on)].flatMap((day) => day ?? [])
  return {
    ...{ kind: "data", on: of.on, ended: [] },
    reasons: rows.map(heldOf),
    keptFrom: first ? first.kept_from : (of.before?.keptFrom ?? null),
    lastSeenOn: days.toSorted().at(-1) ?? null,
  }
}

type Held = Pick<
  OutreachRow,
  "fact_on" | "value" | "second_value" | "comparator" | "falls_out_on" | "is_urgent"
> & {
  reason: string
}

function heldOf(row: Held): HeldReason {
  return {
    ...{ reason: row.reason, isUrgent: row.is_urgent, factOn: row.fact_on, value: row.value },
    ...{ secondValue: row.second_value, comparator: row.comparator, fallsOutOn: row.falls_out_on },
  }
}

function factOf(fact: Omit<Held, "is_urgent" | "falls_out_on">): HeldReason {
  return heldOf({ ...fact, is_urgent: false, falls_out_on: null })
}

function placeOf([row]: readonly OutreachRow[]): PersonPlace[] {
  if (!row) return []
  return [
    {
      ...{ patientId: row.patient_id, tier: row.tier, place: row.place, belowBy: row.below_by },
      ...{ site: row.site, clinician: row.clinician_name, nextVisitOn: row.next_visit_on },
      ...{ language: row.language, isBookedSoon: row.is_booked_soon },
    },
  ]
}
