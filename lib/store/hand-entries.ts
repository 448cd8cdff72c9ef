import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { ledgers } from "../domain/ledgers"
import type { PlainDate } from "../domain/plain-date"
import type { Prisma, PrismaClient } from "./generated/client"
import { inScope } from "./in-scope"
import { recordsOfPerson } from "./person-records"

/** The files of which a person may type rows. */
export const handKinds = ["readings", "diet"] as const

export type HandKind = (typeof handKinds)[number]

type OfPerson = { scope: Scope; publicId: string }

/** Whose rows are typed; `records` are all numbers of the person. */
export type EntryPerson = { patientId: string; name: string; birthDate: PlainDate; records: string[] }

/** One sitting at the form: what was typed of one person at once. */
export type HandEntry = {
  importId: number
  kind: HandKind
  enteredBy: string
  enteredById: string
  enteredAt: Date
  /** The days of its first and last row, on the clinic's calendar. */
  from: PlainDate
  to: PlainDate
  /** Its rows, and those of them that count now. */
  rows: number
  rowsInForce: number
}

/** The person in scope whose record in force has this id; null for nobody. */
export function findEntryPerson(client: PrismaClient, of: OfPerson): Promise<EntryPerson | null> {
  return inScope(client, of.scope, async (transaction) => {
    const found = await transaction.patientRecord.findFirst({
      where: { endedAt: null, patient: { publicId: of.publicId } },
      select: { patientId: true, birthDate: true, givenName: true, familyName: true },
    })
    if (found === null) return null
    const { patientId, givenName, familyName } = found
    const name = [givenName, familyName].filter(Boolean).join(" ")
    const records = await recordsOf(transaction, patientId)
    const birthDate = plain(found.birthDate)
    return { patientId, name: name === "" ? "Name not given" : name, birthDate, records }
  })
}

/** Which of these moments, in ms since 1970, already have a home reading of the person that counts. */
export async function knownHomeMoments(
  client: PrismaClient,
  of: { scope: Scope; records: readonly string[]; moments: readonly number[] },
): Promise<Set<number>> {
  const rows = await inScope(client, of.scope, (transaction) =>
    transaction.reading.findMany({
      where: {
        ...{ patientId: { in: [...of.records] }, setting: "home", endedAt: null },
        takenAt: { in: of.moments.map((moment) => new Date(moment)) },
      },
      select: { takenAt: true },
    }),
  )
  return new Set(rows.map((row) => row.takenAt.getTime()))
}

/** Whether a diet record of this day and method counts for the person. */
export async function hasDietRecord(
  client: PrismaClient,
  of: { scope: Scope; records: readonly string[]; on: PlainDate; method: string },
): Promise<boolean> {
  const where = {
    ...{ patientId: { in: [...of.records] }, method: of.method, endedAt: null },
    recordedOn: new Date(`${of.on}T00:00:00Z`),
  }
  return (await inScope(client, of.scope, (transaction) => transaction.dietRecord.count({ where }))) > 0
}

const Entry = z.object({
  importId: z.number(),
  enteredBy: z.string(),
  enteredById: z.string(),
  enteredAt: z.date(),
  from: z.string(),
  to: z.string(),
  rows: z.number(),
  rowsInForce: z.number(),
})

const dayOf = {
  readings: "taken_at at time zone (select time_zone from clinics limit 1)",
  diet: "recorded_on",
}

/** What was typed of a person under all their numbers, latest first. */
export function listHandEntries(client: PrismaClient, of: OfPerson): Promise<HandEntry[]> {
  return inScope(client, of.scope, async (transaction) => {
    const patient = await transaction.patient.findUnique({ where: { publicId: of.publicId } })
    if (patient === null) return []
    const records = await recordsOf(transaction, patient.patientId)
    const entries: HandEntry[] = []
    for (const kind of handKinds) {
      const rows = await transaction.$queryRawUnsafe(
        `select i.id as "importId", i.entered_by as "enteredBy", i.entered_by_id::text as "enteredById",
           i.started_at as "enteredAt", to_char(min(${dayOf[kind]}), 'YYYY-MM-DD') as "from",
           to_char(max(${dayOf[kind]}), 'YYYY-MM-DD') as "to", count(*)::int as rows,
           (count(*) filter (where l.ended_at is null))::int as "rowsInForce"
         from imports i join ${ledgers[kind].table} l on l.import_id = i.id
         where i.entered_by_id is not null and l.patient_id = any ($1::text[])
         group by i.id`,
        records,
      )
      for (const row of z.array(Entry).parse(rows)) entries.push({ kind, ...row })
    }
    return entries.sort((one, other) => other.importId - one.importId)
  })
}

/** The rows of an entry that count now: the number they stand under, and their own id. */
export async function rowsOfEntry(
  client: PrismaClient,
  of: { scope: Scope; importId: number; kind: HandKind },
): Promise<{ patientId: string; id: string }[]> {
  const id = of.kind === "readings" ? "reading_id" : "diet_id"
  const rows = await inScope(client, of.scope, (transaction) =>
    transaction.$queryRawUnsafe(
      `select patient_id as "patientId", ${id} as id from ${ledgers[of.kind].table}
       where import_id = $1 and ended_at is null order by line`,
      of.importId,
    ),
  )
  return z.array(z.object({ patientId: z.string(), id: z.string() })).parse(rows)
}

async function recordsOf(transaction: Prisma.TransactionClient, patientId: string): Promise<string[]> {
  return (await recordsOfPerson(transaction, patientId)).map((one) => one.patientId)
}

function plain(day: Date): PlainDate {
  return day.toISOString().slice(0, 10)
}
