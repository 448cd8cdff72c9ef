import "server-only"
import path from "node:path"
import type pg from "pg"
import type { FactKind } from "../domain/fact-kinds"
import type { FileReport, ImportQuestion } from "../domain/import-report"
import { ledgers } from "../domain/ledgers"
import type { Actor } from "./audit-actors"
import { recordStored } from "./audit-import"
import { canDeferReferences } from "./bulk-checks"
import { startLoading, type Loading } from "./bulk"
import { clearSpools, createCopySpool, type CopySpool } from "./copy-spool"
import { writeImportReport } from "./import-record"
import { mergeTables } from "./merge-sql"
import { rejectReleased } from "./release-held"

/** The one transaction in which an import writes; nothing of it shows before `commit`. */
export type LedgerWriter = {
  client: pg.Client
  /** Rejected rows: import_id, file, line, column_name, value, code, message, original. */
  rejects: CopySpool
  /** Retractions and rejected rows of the file being read whose key is known: state, key, line, is_numbered. */
  side: CopySpool
  load: (kind: FactKind, options: { isLarge: boolean }) => Promise<Loading>
  rejectReleased: (timeZone: string) => Promise<number>
  /** Undoes what was written to the ledgers, but goes on. */
  undo: () => Promise<void>
  commit: (report: CommittedReport) => Promise<void>
  rollback: () => Promise<void>
}

export type CommittedReport = {
  status: "done" | "asks"
  question: ImportQuestion | null
  files: FileReport[]
  totalBytes: number
  /** Who typed the rows; null for an extract, which a command brings in. */
  by: Actor | null
}

const rejectColumns = "import_id, file, line, column_name, value, code, message, original"

export async function openLedgerWriter(
  client: pg.Client,
  options: { importId: number; knownAt: Date; spoolDir: string },
): Promise<LedgerWriter> {
  const { importId, knownAt, spoolDir } = options
  clearSpools(spoolDir)
  const rejects = createCopySpool(path.join(spoolDir, `import-${importId}-rejects`))
  const side = createCopySpool(path.join(spoolDir, `import-${importId}-side`))
  await client.query("begin")
  for (const table of mergeTables) await client.query(table)
  const canDefer = await canDeferReferences(client)
  await client.query("savepoint ledgers")

  return {
    client,
    rejects,
    side,
    load: (kind, { isLarge }) =>
      startLoading({ client, ledger: ledgers[kind], importId, knownAt, canDefer }, { isLarge }),
    async rejectReleased(timeZone) {
      let rejected = 0
      for (const ledger of Object.values(ledgers))
        rejected += await rejectReleased(client, { ledger, importId, knownAt, timeZone, rejects })
      return rejected
    },
    async undo() {
      await client.query("rollback to savepoint ledgers")
    },
    async commit({ by, ...report }) {
      // An import that asked first has left a report behind.
      await client.query("delete from rejected_rows where import_id = $1", [importId])
      await writeRejects(client, rejects)
      await writeImportReport(client, { importId, ...report })
      if (report.status === "done") await recordStored(client, { importId, files: report.files, by })
      await client.query("commit")
      clearSpools(spoolDir)
    },
    async rollback() {
      clearSpools(spoolDir)
      await client.query("rollback")
    },
  }
}

/** By way of a table of the transaction: a table with row security takes no COPY from any role but the server's own. */
async function writeRejects(client: pg.Client, rejects: CopySpool): Promise<void> {
  if (rejects.count() === 0) return
  await client.query(
    `create temp table arriving_rejects on commit drop as select ${rejectColumns} from rejected_rows with no data`,
  )
  await rejects.copyInto(client, `arriving_rejects (${rejectColumns})`)
  await client.query(
    `insert into rejected_rows (${rejectColumns}) select ${rejectColumns} from arriving_rejects`,
  )
}
