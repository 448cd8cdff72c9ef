import { hexOf } from "../domain/hash128"
import { FileNotes, type FileReport } from "../domain/import-report"
import type { FactKind } from "../domain/fact-kinds"
import { assertAccounted } from "./accounting"
import type { CheckContext } from "./check-row"
import { sniffEncoding, type Encoding } from "./encoding"
import { fileKinds } from "./file-kinds"
import type { Withdrawal } from "./question"
import { readFile, type FileTally, type GoodRow, type RejectedRow, type RowSink } from "./read-file"
import type { SourceFile } from "./source"

/** What is written while a file is read; the store implements it. */
export type FileStore = {
  load: (kind: FactKind, options: { isLarge: boolean }) => Promise<FileLoading>
  /** import_id, file, line, column_name, value, code, message, original */
  rejects: Spool
  /** state, key, line, is_numbered */
  side: Spool & { clear: () => void }
}

type Spool = { add: (fields: readonly (string | number | boolean | null)[]) => void }

export type FileLoading = {
  add: (row: GoodRow) => void
  drain: () => Promise<void>
  merge: (request: { isFull: boolean; heldRows: number; retractedRows: number }) => Promise<FileCounts>
}

export type FileCounts = Pick<FileReport, "added" | "changed" | "unchanged" | "withdrawn" | "held"> &
  Pick<FileNotes, "moved" | "olderKept" | "replacedInOrder" | "replacedLines" | "withdrawnByFull"> & {
    inForceBefore: number
  }

export type ShownProblem = { file: string; line: number; column: string | null; message: string }

export type ImportedFile = { report: FileReport; withdrawal: Withdrawal; firstProblems: ShownProblem[] }

const shownProblems = 10
const longestOriginal = 20_000

/** Takes one file from its bytes into the ledger of its kind, and gives the account of it. */
export async function importFile(options: {
  file: SourceFile
  context: CheckContext
  store: FileStore
  importId: number
  isFull: boolean
  isLarge: boolean
  onBytes: (count: number) => void
}): Promise<ImportedFile> {
  const { file, context, store, importId, isFull, isLarge, onBytes } = options
  const { kind } = file
  const name = `${kind}.csv`
  const encoding = await sniffEncoding(await file.open())
  const firstProblems: ShownProblem[] = []
  store.side.clear()
  const loading = await store.load(kind, { isLarge })

  function reject({ line, problem, original }: Omit<RejectedRow, "name">): void {
    const { column, value, code, message } = problem
    if (firstProblems.length < shownProblems) firstProblems.push({ file: name, line, column, message })
    store.rejects.add([
      importId,
      name,
      line,
      column,
      value,
      code,
      message,
      original.slice(0, longestOriginal),
    ])
  }
  const sink: RowSink = {
    good: loading.add,
    retracted: ({ line, key, isNumbered }) => store.side.add(["retracted", hexOf(key), line, isNumbered]),
    rejected({ name: fact, ...row }) {
      reject(row)
      if (fact) store.side.add(["rejected", hexOf(fact.key), fact.line, fact.isNumbered])
    },
    drain: loading.drain,
  }
  const tally = await readFile({
    ...{ fileKind: fileKinds[kind], chunks: await file.open(), encoding, context, sink, onBytes },
  })
  if (tally.fileProblem) reject({ line: 1, problem: tally.fileProblem, original: tally.header })

  const counts = await loading.merge({
    isFull: isFull && !tally.fileProblem,
    heldRows: tally.held,
    retractedRows: tally.retracted,
  })
  const report = reportOf(name, kind, { tally, counts, encoding })
  assertAccounted(report)
  const withdrawal = {
    file: name,
    withdrawn: isFull ? counts.withdrawn + counts.withdrawnByFull : 0,
    inForce: counts.inForceBefore,
  }
  return { report, withdrawal, firstProblems }
}

function reportOf(
  file: string,
  kind: FactKind,
  { tally, counts, encoding }: { tally: FileTally; counts: FileCounts; encoding: Encoding },
): FileReport {
  const { added, changed, unchanged, withdrawn, held } = counts
  const { fileProblem } = tally
  const notes = FileNotes.parse({
    ...{ moved: counts.moved, olderKept: counts.olderKept, withdrawnByFull: counts.withdrawnByFull },
    ...{ replacedInOrder: counts.replacedInOrder, replacedLines: counts.replacedLines },
    problem: fileProblem && [fileProblem.column, fileProblem.message].filter(Boolean).join(" "),
    encoding: encoding.ok ? encoding.encoding : null,
    unknownColumns: tally.unknownColumns,
    unknownClinicians: tally.unknownClinicians,
    testPatients: tally.testPatients,
    unitDisagreements: tally.unitDisagreements,
    unlistedLoinc: [...tally.rowsByUnlistedLoinc].map(([code, rows]) => ({ code, rows })),
  })
  return {
    ...{ file, kind, dataRows: tally.dataRows, added, changed, unchanged, withdrawn, held },
    ...{ rejected: tally.rejected, isRejected: fileProblem !== null, notes },
  }
}
