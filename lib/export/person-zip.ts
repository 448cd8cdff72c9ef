import { buffer } from "node:stream/consumers"
import { ZipFile } from "yazl"
import type { FactKind } from "../domain/fact-kinds"
import { toCsv, type CsvRow } from "./csv"

type PersonFile = {
  kind: FactKind
  columns: readonly string[]
  inForce: readonly CsvRow[]
  earlier: readonly CsvRow[]
}

/**
 * One person's record as a zip file: for each kind of fact the file of the extract with what counts now, and beside it the
 * versions that were superseded or withdrawn; and what was done and decided about the person, a file each. Cells that a spreadsheet would run as a formula are defused.
 */
export async function personZip(
  files: readonly PersonFile[],
  histories: readonly { name: string; columns: readonly string[]; rows: readonly CsvRow[] }[],
): Promise<Buffer> {
  const zip = new ZipFile()
  zip.addBuffer(Buffer.from(about), "ABOUT.txt")
  for (const { kind, columns, inForce, earlier } of files) {
    if (inForce.length > 0) zip.addBuffer(Buffer.from(toCsv(columns, inForce)), `${kind}.csv`)
    if (earlier.length > 0) zip.addBuffer(Buffer.from(toCsv(columns, earlier)), `earlier-${kind}.csv`)
  }
  for (const { name, columns, rows } of histories)
    if (rows.length > 0) zip.addBuffer(Buffer.from(toCsv(columns, rows)), `${name}.csv`)
  zip.end()
  return buffer(zip.outputStream)
}

/** How many facts a record holds: those that count now, and earlier versions; staff are named in it and none of its facts. */
export function countFacts(files: readonly PersonFile[]): { facts: number; earlier: number } {
  const own = files.filter((file) => file.kind !== "staff")
  return {
    facts: own.reduce((total, file) => total + file.inForce.length, 0),
    earlier: own.reduce((total, file) => total + file.earlier.length, 0),
  }
}

const about = `Everything this clinic's Filtrate holds about one person. It contains patient data.

Each CSV file is one kind of fact as the clinic's records system sent it, under all numbers the person had there. The columns
import_number, import_source and import_line say which extract brought a row and on which line; known_from and known_until since
when and until when it counted here. Files that begin with "earlier-" hold versions that were superseded or withdrawn.
contact-history.csv says why and when the clinic meant to contact the person, what it tried and what came of it;
decisions.csv what its clinicians decided about a class of drugs, the pressure or the diet, and what was taken back.
A cell that begins with an apostrophe has it against formulas of spreadsheets; it is no part of the value.
`
