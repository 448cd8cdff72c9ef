import { stringify } from "csv-stringify/sync"

/** Rows as CSV (RFC 4180) with a head line; cells that a spreadsheet would run as a formula are defused. */
export function toCsv(
  columns: readonly string[],
  rows: readonly (readonly (string | number | boolean | null)[])[],
): string {
  return stringify([columns, ...rows], { escape_formulas: true, cast: { boolean: String } })
}
