import type { Hash128 } from "../domain/hash128"
import { ledgers, type LedgerValue } from "../domain/ledgers"
import { createRowChecker, type CheckContext, type CheckedRow } from "./check-row"
import type { FactKey } from "./cells"
import type { Encoding } from "./encoding"
import { namesErased } from "./erased-rows"
import { keyHash } from "./fact-hash"
import type { FileKind } from "./file-kind"
import { readHeader } from "./header"
import type { Problem } from "./problems"
import { createRecordCutter, type CsvRecord } from "./records"
import { createDecoder } from "./text-decoder"

/** Which fact a row speaks of. Facts without an id of their own may be several of one key, told apart by their order. */
export type RowName = { line: number; key: Hash128; isNumbered: boolean }

export type GoodRow = {
  line: number
  key: Hash128
  values: readonly LedgerValue[]
  /** About how many characters the values have together. */
  size: number
}

export type RejectedRow = { line: number; name: RowName | null; problem: Problem; original: string }

/** Where the rows of a file go. `drain` is awaited between chunks, so that a slow receiver slows the reading. */
export type RowSink = {
  good: (row: GoodRow) => void
  retracted: (row: RowName) => void
  rejected: (row: RejectedRow) => void
  drain: () => Promise<void>
}

/** What was in a file, row by row, and what is worth telling. */
export type FileTally = {
  /** The line of column names as it stands; empty when there is none. */
  header: string
  hasHeader: boolean
  dataRows: number
  good: number
  held: number
  retracted: number
  rejected: number
  /** Why none of it could be used. */
  fileProblem: Problem | null
  unknownColumns: string[]
  unknownClinicians: number
  testPatients: number
  unitDisagreements: number
  rowsByUnlistedLoinc: Map<string, number>
}

/** More codes than any laboratory has; a list without end would fill the memory. */
const mostListedCodes = 10_000

/** Reads one file from bytes to checked rows, holding no more than a chunk and a record in memory. */
export async function readFile(options: {
  fileKind: FileKind
  chunks: AsyncIterable<Buffer>
  encoding: Encoding
  context: CheckContext
  sink: RowSink
  onBytes: (count: number) => void
}): Promise<FileTally> {
  const { chunks, encoding, onBytes, sink } = options
  const tally = emptyTally(encoding.ok ? null : encodingProblem(encoding))
  const decode = createDecoder(encoding.ok ? encoding.encoding : "ascii")
  const cutter = createRecordCutter()
  const take = createTaker(options, tally)

  for await (const chunk of chunks) {
    for (const record of cutter.push(decode(chunk), false)) take(record)
    onBytes(chunk.length)
    await sink.drain()
  }
  for (const record of cutter.push(decode(undefined), true)) take(record)
  await sink.drain()
  return settle(tally)
}

function createTaker(
  { fileKind, context, sink }: { fileKind: FileKind; context: CheckContext; sink: RowSink },
  tally: FileTally,
): (record: CsvRecord) => void {
  const ledger = ledgers[fileKind.kind]
  let check: ((record: CsvRecord) => CheckedRow) | null = null

  function takeHeader(record: CsvRecord): void {
    tally.hasHeader = true
    tally.header = record.raw
    if (tally.fileProblem) return
    const header = readHeader(record, fileKind)
    if ("message" in header) tally.fileProblem = header
    else {
      tally.unknownColumns = header.unknown
      check = createRowChecker(header, fileKind, context)
    }
  }

  function take(record: CsvRecord): void {
    if (!tally.hasHeader) return takeHeader(record)
    tally.dataRows += 1
    if (!check) return
    const row = check(record)
    if (row.verdict === "good") takeGood(record, row)
    else if (row.verdict === "retracted") {
      tally.retracted += 1
      sink.retracted(nameOf(record, row.key))
    } else {
      tally.rejected += 1
      const name = row.key && nameOf(record, row.key)
      const isHidden = context.isErased ? namesErased(record, context.isErased) : false
      const problem = isHidden ? { ...row.problem, value: null } : row.problem
      sink.rejected({ line: record.line, name, problem, original: isHidden ? "" : record.raw })
    }
  }

  function takeGood(record: CsvRecord, row: CheckedRow & { verdict: "good" }): void {
    const { key, values, remarks } = row
    tally.good += 1
    if (row.isHeld) tally.held += 1
    if (row.isClinicianUnknown) tally.unknownClinicians += 1
    if (remarks.isTestPatient) tally.testPatients += 1
    if (remarks.isUnitOdd) tally.unitDisagreements += 1
    if (remarks.unlistedLoinc !== null) countCode(tally.rowsByUnlistedLoinc, remarks.unlistedLoinc)
    sink.good({ line: record.line, key: keyHash(key), values, size: record.raw.length })
  }

  function nameOf(record: CsvRecord, key: FactKey): RowName {
    const isNumbered = ledger.numberedWithout !== null && "parts" in key
    return { line: record.line, key: keyHash(key), isNumbered }
  }

  return take
}

function countCode(rowsByCode: Map<string, number>, code: string): void {
  const rows = rowsByCode.get(code) ?? 0
  if (rows > 0 || rowsByCode.size < mostListedCodes) rowsByCode.set(code, rows + 1)
}

function settle(tally: FileTally): FileTally {
  if (!tally.hasHeader)
    tally.fileProblem ??= {
      column: null,
      value: null,
      code: "missing-value",
      message: "is empty; the first line must name the columns",
    }
  if (tally.fileProblem) tally.rejected = tally.dataRows
  return tally
}

function encodingProblem(encoding: Encoding & { ok: false }): Problem {
  const message =
    encoding.reason === "utf-16"
      ? "is UTF-16; it must be saved as UTF-8"
      : `mixes UTF-8 with bytes that are not; the first bad one is at byte offset ${encoding.byteOffset}`
  return { column: null, value: null, code: "unreadable", message }
}

function emptyTally(fileProblem: Problem | null): FileTally {
  return {
    ...{ dataRows: 0, good: 0, held: 0, retracted: 0, rejected: 0, unknownClinicians: 0 },
    ...{ testPatients: 0, unitDisagreements: 0, unknownColumns: [], rowsByUnlistedLoinc: new Map() },
    ...{ header: "", hasHeader: false },
    fileProblem,
  }
}
