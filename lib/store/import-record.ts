import "server-only"
import type pg from "pg"
import { z } from "zod"
import type { FileReport, ImportQuestion, ImportStatus } from "../domain/import-report"
import type { PlainDate } from "../domain/plain-date"
import type { Actor } from "./audit-actors"
import { connect } from "./connect"

/** The row of one import in the history. It is written apart from the facts, so that failures are on record too. */
export type ImportRecord = {
  id: number
  setStatus: (status: ImportStatus) => Promise<void>
  /** Notes how far the reading is, at most twice a second; never waits. */
  progress: (doneBytes: number, totalBytes: number) => void
  /** The end of an import that stored nothing. */
  finish: (end: { status: "refused" | "failed"; message: string }) => Promise<void>
  /** Takes the row away, for a trial that leaves no trace. */
  discard: () => Promise<void>
  close: () => Promise<void>
}

/** Advisory locks of the database: (1) the one import that may store, (2) that the process of an import is alive. */
export const lockClasses = { store: 717_101, alive: 717_102 } as const

const progressInterval = 500

export type NewImport = {
  source: string
  isFull: boolean
  isAccepted: boolean
  uploadPath: string | null
  /** Who typed the rows; null for an extract. */
  enteredBy: Actor | null
  asOf: PlainDate
  startedAt: Date
}

/** Begins the record of an import, or goes on with one that was begun when its file was uploaded. */
export async function openImportRecord(
  options: NewImport & { databaseUrl: string; id: number | null },
): Promise<ImportRecord> {
  const client = await connect(options.databaseUrl)
  try {
    const id = options.id ?? (await insertImport(client, options))
    await client.query("select pg_advisory_lock($1, $2)", [lockClasses.alive, id])
    await client.query(
      `update imports set status = 'running', is_full = $2, is_accepted = $3, as_of = $4, message = null,
         question = null, finished_at = null
       where id = $1`,
      [id, options.isFull, options.isAccepted, options.asOf],
    )
    return recordOf(client, id)
  } catch (error) {
    await client.end()
    throw error
  }
}

async function insertImport(client: pg.Client, row: NewImport): Promise<number> {
  const result = await client.query(
    `insert into imports (source, is_full, is_accepted, upload_path, as_of, started_at, entered_by, entered_by_id, status)
     values ($1, $2, $3, $4, $5, $6, $7, $8, 'running') returning id`,
    [
      ...[row.source, row.isFull, row.isAccepted, row.uploadPath, row.asOf, row.startedAt],
      ...[row.enteredBy?.actorName ?? null, row.enteredBy?.actor ?? null],
    ],
  )
  return z.object({ id: z.number() }).parse(result.rows[0]).id
}

function recordOf(client: pg.Client, id: number): ImportRecord {
  let lastProgress = 0
  // One query at a time: a note of progress is skipped while one is under way, anything else waits for it.
  let underWay: Promise<unknown> | null = null

  async function write(sql: string, values: unknown[]): Promise<void> {
    await underWay
    await client.query(sql, [id, ...values])
  }

  return {
    id,
    setStatus: (status) => write("update imports set status = $2 where id = $1", [status]),
    progress(doneBytes, totalBytes) {
      const now = performance.now()
      if (underWay !== null || now - lastProgress < progressInterval) return
      lastProgress = now
      underWay = client
        .query("update imports set done_bytes = $2, total_bytes = $3 where id = $1", [
          id,
          doneBytes,
          totalBytes,
        ])
        .catch(() => {})
        .finally(() => (underWay = null))
    },
    finish: ({ status, message }) =>
      write("update imports set status = $2, message = $3, finished_at = now() where id = $1", [
        status,
        message,
      ]),
    discard: () => write("delete from imports where id = $1", []),
    async close() {
      await underWay
      await client.end()
    },
  }
}

/** Writes, in the transaction of the facts, what the import did and how it ended. */
export async function writeImportReport(
  client: pg.Client,
  report: {
    importId: number
    status: "done" | "asks"
    question: ImportQuestion | null
    files: FileReport[]
    totalBytes: number
  },
): Promise<void> {
  const { importId, status, question, files, totalBytes } = report
  await client.query("delete from import_files where import_id = $1", [importId])
  for (const file of files)
    await client.query(
      `insert into import_files (import_id, file, kind, data_rows, added, changed, unchanged, withdrawn, held,
         rejected, is_rejected, notes)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [
        importId,
        file.file,
        file.kind,
        ...[
          file.dataRows,
          file.added,
          file.changed,
          file.unchanged,
          file.withdrawn,
          file.held,
          file.rejected,
        ],
        file.isRejected,
        JSON.stringify(file.notes),
      ],
    )
  await client.query(
    `update imports set status = $2, question = $3, finished_at = clock_timestamp(), done_bytes = $4, total_bytes = $4
     where id = $1`,
    [importId, status, question && JSON.stringify(question), totalBytes],
  )
}
