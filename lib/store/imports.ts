import "server-only"
import { z } from "zod"
import { factKinds } from "../domain/fact-kinds"
import { FileNotes, ImportQuestion, ImportStatus, type FileReport } from "../domain/import-report"
import type { Scope } from "../access/scope"
import type { Prisma, PrismaClient } from "./generated/client"
import { lockClasses } from "./import-record"
import { inScope } from "./in-scope"

/** One import of the history as the screen shows it, its files in the order of import. */
export type ImportEntry = {
  id: number
  source: string
  isFull: boolean
  isAccepted: boolean
  /** Who typed its rows; null for an extract. */
  enteredBy: string | null
  status: ImportStatus
  message: string | null
  question: ImportQuestion | null
  /** A person may say go on: it asks, and its upload is still there. */
  canBeAccepted: boolean
  startedAt: Date
  finishedAt: Date | null
  doneBytes: number
  totalBytes: number
  files: FileReport[]
}

export type RejectedLine = {
  id: number
  file: string
  line: number
  column: string | null
  value: string | null
  code: string
  message: string
  original: string
}

const startingMs = 60_000
const interrupted = "Stopped before it was stored. The clinic is as it was; start the import again."

/** The latest extracts, newest first; `before` gives those older than an id. What was typed by hand stands with its person. */
export async function listImports(
  client: PrismaClient,
  page: { take: number; before?: number },
): Promise<ImportEntry[]> {
  return readEntries(client, () =>
    client.import.findMany({
      where: { enteredBy: null, ...(page.before === undefined ? {} : { id: { lt: page.before } }) },
      orderBy: { id: "desc" },
      take: page.take,
      include: { files: true },
    }),
  )
}

export async function findImport(client: PrismaClient, id: number): Promise<ImportEntry | null> {
  const entries = await readEntries(client, () =>
    client.import.findMany({ where: { id }, include: { files: true } }),
  )
  return entries[0] ?? null
}

/** An import may begin or end between two looks: one that was alive before or after its row was read is not interrupted. */
async function readEntries(client: PrismaClient, read: () => Promise<ImportRow[]>): Promise<ImportEntry[]> {
  const before = await liveImports(client)
  const rows = await read()
  const after = await liveImports(client)
  return rows.map((row) => entryOf(row, before.has(row.id) || after.has(row.id)))
}

/** Rejected rows of one import in the order of the files, after a row already seen. */
export async function listRejectedRows(
  client: Prisma.TransactionClient,
  page: { importId: number; take: number; after?: number; file?: string },
): Promise<RejectedLine[]> {
  const rows = await client.rejectedRow.findMany({
    where: { importId: page.importId, file: page.file, id: { gt: page.after ?? 0 } },
    orderBy: { id: "asc" },
    take: page.take,
  })
  return rows.map((row) => ({
    id: Number(row.id),
    file: row.file,
    line: row.line,
    column: row.columnName,
    value: row.value,
    code: row.code,
    message: row.message,
    original: row.original,
  }))
}

/** All rejected rows of one import, a thousand at a time, for a download of any length. */
export async function* allRejectedRows(
  client: PrismaClient,
  of: { scope: Scope; importId: number },
): AsyncGenerator<RejectedLine[]> {
  for (let last = 0; ;) {
    const page = { importId: of.importId, take: 1000, after: last }
    const rows = await inScope(client, of.scope, (transaction) => listRejectedRows(transaction, page))
    const end = rows.at(-1)
    if (!end) return
    yield rows
    last = end.id
  }
}

/** How many rows of one import were rejected, by file and reason. */
export async function countRejectedRows(
  client: Prisma.TransactionClient,
  importId: number,
): Promise<{ file: string; code: string; rows: number }[]> {
  const groups = await client.rejectedRow.groupBy({
    by: ["file", "code"],
    where: { importId },
    _count: { id: true },
    orderBy: [{ file: "asc" }, { code: "asc" }],
  })
  return groups.map(({ file, code, _count }) => ({ file, code, rows: _count.id }))
}

/** Begins the history of an import whose file has been uploaded; the import itself goes on with the row. */
export async function createUploadedImport(
  client: Prisma.TransactionClient,
  upload: { source: string; uploadPath: string; isFull: boolean; asOf: string; totalBytes: number },
): Promise<number> {
  const { asOf, totalBytes, ...rest } = upload
  const row = await client.import.create({
    data: {
      ...rest,
      status: "waiting",
      asOf: new Date(`${asOf}T00:00:00Z`),
      totalBytes: BigInt(totalBytes),
    },
  })
  return row.id
}

/** A person has looked and decided against it. Nothing was stored; nothing will be. */
export async function declineImport(client: Prisma.TransactionClient, id: number): Promise<boolean> {
  const declined = await client.import.updateMany({
    where: { id, status: "asks" },
    data: { status: "refused", message: "Declined by a person. Nothing was stored.", uploadPath: null },
  })
  return declined.count === 1
}

/** The uploaded file of an import that asks, to go on with it; null when it does not ask or came from elsewhere. */
export async function findUpload(
  client: PrismaClient,
  id: number,
): Promise<{ uploadPath: string; isFull: boolean } | null> {
  const row = await client.import.findFirst({ where: { id, status: "asks", uploadPath: { not: null } } })
  return row?.uploadPath ? { uploadPath: row.uploadPath, isFull: row.isFull } : null
}

/**
 * A person says to go on: from here on it waits for its process. False when it does not ask, so that a second press
 * starts nothing.
 */
export async function beginAccepted(
  client: Prisma.TransactionClient,
  id: number,
  now: Date,
): Promise<boolean> {
  const begun = await client.import.updateMany({
    where: { id, status: "asks" },
    data: { status: "waiting", isAccepted: true, startedAt: now, finishedAt: null },
  })
  return begun.count === 1
}

/**
 * The process of an uploaded import has ended before it could say anything itself. The process that asked may end after a
 * person has answered: what was accepted since is another process's to settle.
 */
export async function failUnstartedImport(
  client: PrismaClient,
  run: { id: number; isAccepted: boolean },
): Promise<void> {
  await client.import.updateMany({
    where: { id: run.id, isAccepted: run.isAccepted, status: { in: ["waiting", "running"] } },
    data: { status: "failed", message: interrupted, finishedAt: new Date() },
  })
}

/** Whether nothing of an import is to come: it does not ask, wait or run. */
export async function isImportOver(client: PrismaClient, id: number): Promise<boolean> {
  const open = await client.import.count({ where: { id, status: { in: ["asks", "waiting", "running"] } } })
  return open === 0
}

type ImportRow = Awaited<ReturnType<PrismaClient["import"]["findFirstOrThrow"]>> & {
  files: Awaited<ReturnType<PrismaClient["importFile"]["findMany"]>>
}

function entryOf(row: ImportRow, isAlive: boolean): ImportEntry {
  const status = ImportStatus.parse(row.status)
  const isUnfinished = status === "running" || status === "waiting"
  const isInterrupted = isUnfinished && !isAlive && !isStarting(row)
  return {
    id: row.id,
    source: row.source,
    isFull: row.isFull,
    isAccepted: row.isAccepted,
    enteredBy: row.enteredBy,
    status: isInterrupted ? "failed" : status,
    message: isInterrupted ? interrupted : row.message,
    question: row.question === null ? null : ImportQuestion.parse(row.question),
    canBeAccepted: status === "asks" && row.uploadPath !== null,
    startedAt: row.startedAt,
    finishedAt: row.finishedAt,
    doneBytes: Number(row.doneBytes),
    totalBytes: Number(row.totalBytes),
    files: factKinds.flatMap((kind) => row.files.filter((file) => file.kind === kind).map(reportOf)),
  }
}

function reportOf({ importId: _, ...file }: ImportRow["files"][number]): FileReport {
  return { ...file, notes: FileNotes.parse(file.notes) }
}

/** An upload whose import has been asked for and may not have got its lock yet. */
function isStarting({ status, startedAt }: ImportRow): boolean {
  return status === "waiting" && Date.now() - startedAt.getTime() < startingMs
}

/** The imports whose process lives: each holds a lock under its own number. */
async function liveImports(client: PrismaClient): Promise<Set<number>> {
  const rows = await client.$queryRaw`
    select objid::int as id from pg_locks
    where locktype = 'advisory' and classid = ${lockClasses.alive} and granted
      and database = (select oid from pg_database where datname = current_database())`
  return new Set(
    z
      .array(z.object({ id: z.number() }))
      .parse(rows)
      .map(({ id }) => id),
  )
}
