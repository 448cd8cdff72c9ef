import { stringify } from "csv-stringify/sync"
import { spreadsheetCell } from "../domain/spreadsheet-cell"

export type CsvRow = readonly (string | number | boolean | null)[]

/** Rows as CSV (RFC 4180) with a head line; cells that a spreadsheet would run as a formula are defused. */
export function toCsv(columns: readonly string[], rows: readonly CsvRow[]): string {
  return csvLines([columns, ...rows])
}

/** The same without a head line, for a file that is written piece by piece. */
export function csvLines(rows: readonly CsvRow[]): string {
  return stringify([...rows], { cast: { boolean: String, string: spreadsheetCell } })
}
