import { createHash } from "node:crypto"
import type { Caller } from "../access/caller"
import { may } from "../access/permissions"
import type { Scope } from "../access/scope"
import { ledgers, type LedgerValue } from "../domain/ledgers"
import { plainToday } from "../domain/plain-date"
import { AppError } from "../errors"
import { textOfDay, dayFromText } from "../import/calendar"
import type { CheckContext } from "../import/check-row"
import { clinicClock } from "../import/clinic-clock"
import { fileKinds } from "../import/file-kinds"
import { judgeTyped, type TypedFact, type TypedProblem } from "../import/judge-typed"
import { readLabCodes } from "../import/lab-codes"
import { runImport } from "../import/run"
import type { TypedRow } from "../import/typed-source"
import { record, type AuditEntry } from "../store/audit"
import { actorOf } from "../store/audit-actors"
import type { PrismaClient } from "../store/generated/client"
import {
  findEntryPerson,
  hasDietRecord,
  knownHomeMoments,
  listHandEntries,
  rowsOfEntry,
  type EntryPerson,
  type HandEntry,
  type HandKind,
} from "../store/hand-entries"

type Site = { client: PrismaClient; importUrl: string; dataDir: string }

type Asked = { scope: Scope; caller: Caller; publicId: string; kind: HandKind; now: Date; timeZone: string }

export type EntryAnswer =
  | { is: "done"; importId: number; rows: number }
  | { is: "wrong"; problems: TypedProblem[] }
  | { is: "gone" }
  | { is: "refused"; words: string }

/** So long is waited for an extract that is being stored, since somebody sits before the form. */
const patienceMs = 5000

/**
 * Stores what a person typed about one patient as an import of one file: judged as the rows of an extract are, all of it or
 * nothing, with who typed it. Rows are told by their place in `rows`.
 */
export async function enterByHand(
  site: Site,
  asked: Asked & { rows: readonly TypedRow[] },
): Promise<EntryAnswer> {
  const { client } = site
  const { scope, publicId, kind } = asked
  const person = await findEntryPerson(client, { scope, publicId })
  if (person === null) return { is: "gone" }
  const rows = asked.rows.map((row) => withIdentity(row, { kind, publicId, person }))
  const { problems, facts } = await judgeTyped({ kind, rows }, contextOf(person, asked))
  const repeated = await repetitions(client, { scope, kind, person, facts })
  const all = [...problems, ...repeated].sort((one, other) => one.row - other.row)
  if (all.length > 0) return { is: "wrong", problems: all }
  return store(site, asked, { rows, action: "readings.enter" })
}

/** Whether somebody withdraws an entry: who typed it, and whoever may withdraw what others did. */
export function mayWithdraw(caller: Caller, { enteredById }: Pick<HandEntry, "enteredById">): boolean {
  return enteredById === caller.userId || may(caller, "readings.withdraw")
}

/** Withdraws what was typed at once; it stays in the history. */
export async function withdrawEntry(
  site: Site,
  asked: Omit<Asked, "kind"> & { importId: number },
): Promise<EntryAnswer> {
  const { scope, publicId, importId, caller } = asked
  const entries = await listHandEntries(site.client, { scope, publicId })
  const entry = entries.find((one) => one.importId === importId)
  if (entry === undefined) return { is: "gone" }
  if (!mayWithdraw(caller, entry))
    return { is: "refused", words: "Only who entered it, or a clinic lead, withdraws it." }
  const { kind } = entry
  const known = await rowsOfEntry(site.client, { scope, importId, kind })
  if (known.length === 0) return { is: "refused", words: "It was withdrawn meanwhile." }
  const empty = Object.fromEntries(fileKinds[kind].required.map((column) => [column, ""]))
  const rows = known.map(({ patientId, id }) => ({
    ...empty,
    ...{ patient_id: patientId, [idColumn(kind)]: id, retracted: "true" },
  }))
  return store(site, { ...asked, kind }, { rows, action: "readings.withdraw" })
}

async function store(
  { client, importUrl, dataDir }: Site,
  { caller, publicId, kind, now, timeZone }: Asked,
  { rows, action }: { rows: readonly TypedRow[]; action: AuditEntry["action"] },
): Promise<EntryAnswer> {
  const by = actorOf(caller)
  try {
    const { importId } = await runImport({
      ...{ databaseUrl: importUrl, dataDir, location: "by hand", now, timeZone, waitMs: patienceMs },
      ...{ isFull: false, isDryRun: false, isAccepted: true, say: () => {}, typed: { kind, rows, by } },
    })
    await record(client, {
      ...{ by, action, object: "import", objectId: String(importId), people: [publicId] },
      detail: { kind, rows: rows.length },
    })
    return { is: "done", importId, rows: rows.length }
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    return { is: "refused", words: error.personMessage }
  }
}

/** Typed rows have an id drawn from what they speak of: no row of an extract meets one, and none is stored twice. */
function withIdentity(
  row: TypedRow,
  { kind, publicId, person }: { kind: HandKind; publicId: string; person: EntryPerson },
): TypedRow {
  const when = kind === "readings" ? [row["taken_at"]] : [row["recorded_on"], row["method"]]
  const named = JSON.stringify([publicId, kind, ...when])
  const id = `by-hand-${createHash("sha256").update(named, "utf8").digest("hex").slice(0, 32)}`
  const empty = Object.fromEntries(fileKinds[kind].required.map((column) => [column, ""]))
  return { ...empty, ...row, patient_id: person.patientId, [idColumn(kind)]: id }
}

function idColumn(kind: HandKind): string {
  return kind === "readings" ? "reading_id" : "diet_id"
}

function contextOf(person: EntryPerson, { now, timeZone }: Asked): CheckContext {
  const importDay = dayFromText(plainToday(now, timeZone))
  const birth = dayFromText(person.birthDate)
  if (importDay === null || birth === null) throw new RangeError("an entry requires a valid clock")
  return {
    ...{ importDay, clock: clinicClock(timeZone), labCodes: readLabCodes(), staffIds: null },
    births: new Map([[person.patientId, birth]]),
  }
}

/** A moment that has a home reading, or a day with a diet record of the method, is told and not stored again. */
function repetitions(client: PrismaClient, of: TypedFacts & { kind: HandKind }): Promise<TypedProblem[]> {
  return of.kind === "readings" ? repeatedReadings(client, of) : repeatedRecords(client, of)
}

type TypedFacts = { scope: Scope; person: EntryPerson; facts: readonly TypedFact[] }

async function repeatedReadings(
  client: PrismaClient,
  { scope, person, facts }: TypedFacts,
): Promise<TypedProblem[]> {
  const { records } = person
  const momentOf = (fact: TypedFact) => Number(valueOf(fact, { kind: "readings", column: "taken_at" }))
  const known = await knownHomeMoments(client, { scope, records, moments: facts.map(momentOf) })
  const seen = new Set<number>()
  return facts.flatMap((fact) => {
    const moment = momentOf(fact)
    const isTwice = seen.has(moment)
    seen.add(moment)
    if (!known.has(moment) && !isTwice) return []
    const message = known.has(moment)
      ? "has a home reading on record already; it is not stored again"
      : "stands here twice; each reading has a time of its own"
    return [{ row: fact.row, column: "taken_at", message }]
  })
}

async function repeatedRecords(
  client: PrismaClient,
  { scope, person, facts }: TypedFacts,
): Promise<TypedProblem[]> {
  const { records } = person
  const message = "has a diet record by this method already; it is not stored again"
  const problems: TypedProblem[] = []
  for (const fact of facts) {
    const on = textOfDay(Number(valueOf(fact, { kind: "diet", column: "recorded_on" })))
    const method = String(valueOf(fact, { kind: "diet", column: "method" }))
    if (await hasDietRecord(client, { scope, records, on, method }))
      problems.push({ row: fact.row, column: "recorded_on", message })
  }
  return problems
}

function valueOf(fact: TypedFact, { kind, column }: { kind: HandKind; column: string }): LedgerValue {
  return fact.values[ledgers[kind].columns.findIndex(([name]) => name === column)] ?? null
}
