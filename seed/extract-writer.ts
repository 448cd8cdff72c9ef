import { closeSync, mkdirSync, openSync, writeSync } from "node:fs"
import { join } from "node:path"
import type { FactKind } from "../lib/domain/fact-kinds"
import { extractColumns, type Row } from "./extract-columns"

/** Writes the ten files of one extract side by side, a block at a time, so that its size does not matter. */
export type ExtractWriter = {
  write: <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => void
  /** A row that reached the records system late: it stands at the end of its file, not among its patient's. */
  writeLate: <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => void
  /** A whole line as given, for lines that no writer should produce. */
  writeLine: (kind: FactKind, line: string) => void
  /** Writes what is still held, closes the files and returns the data rows of each. */
  close: () => Record<FactKind, number>
}

const blockLength = 1 << 20

/** The dietitians' own program writes its file with a byte order mark and carriage returns. */
const windowsFiles: readonly FactKind[] = ["diet"]

export function openExtractWriter(folder: string): ExtractWriter {
  mkdirSync(folder, { recursive: true })
  const files = mapKinds((kind) => openFile(folder, kind))

  const write = <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => files[kind].line(lineOf(kind, row))
  const writeLate = <Kind extends FactKind>(kind: Kind, row: Row<Kind>) => files[kind].late(lineOf(kind, row))
  const writeLine = (kind: FactKind, line: string) => files[kind].line(line)
  const close = () => mapKinds((kind) => files[kind].close())

  return { write, writeLate, writeLine, close }
}

export function lineOf<Kind extends FactKind>(kind: Kind, row: Row<Kind>): string {
  let line = ""
  const columns: readonly string[] = extractColumns[kind]
  const fields: Record<string, string | number | boolean | undefined> = row
  for (const [index, column] of columns.entries()) {
    if (index > 0) line += ","
    line += field(fields[column])
  }
  return line
}

function field(value: string | number | boolean | undefined): string {
  if (value === undefined) return ""
  if (typeof value !== "string") return String(value)
  return /[",\r\n]|^\s|\s$/.test(value) ? `"${value.replaceAll('"', '""')}"` : value
}

function openFile(folder: string, kind: FactKind) {
  const isWindowsFile = windowsFiles.includes(kind)
  const end = isWindowsFile ? "\r\n" : "\n"
  const descriptor = openSync(join(folder, `${kind}.csv`), "w")
  const block = Buffer.allocUnsafe(blockLength)
  let used = 0
  let held: string[] = []
  let rows = 0

  const flush = () => {
    for (let offset = 0; offset < used;) offset += writeSync(descriptor, block, offset, used - offset)
    used = 0
  }
  const put = (text: string) => {
    const length = Buffer.byteLength(text, "utf8")
    if (length > blockLength) throw new RangeError("openExtractWriter requires lines shorter than a block")
    if (used + length > blockLength) flush()
    used += block.write(text, used, "utf8")
  }
  const line = (text: string) => {
    rows++
    put(text + end)
  }
  const late = (text: string) => {
    held.push(text)
  }
  const close = () => {
    held.forEach(line)
    held = []
    flush()
    closeSync(descriptor)
    return rows
  }
  put((isWindowsFile ? "\uFEFF" : "") + extractColumns[kind].join(",") + end)
  return { line, late, close }
}

function mapKinds<T>(make: (kind: FactKind) => T): Record<FactKind, T> {
  return {
    staff: make("staff"),
    patients: make("patients"),
    visits: make("visits"),
    appointments: make("appointments"),
    readings: make("readings"),
    labs: make("labs"),
    medications: make("medications"),
    problems: make("problems"),
    allergies: make("allergies"),
    diet: make("diet"),
  }
}
