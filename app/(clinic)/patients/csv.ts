import { spreadsheetCell } from "../../../lib/domain/spreadsheet-cell"

/** Rows as CSV (RFC 4180) with a head line; cells that a spreadsheet would run as a formula are defused by an apostrophe. */
export function csvOf(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(csvCell).join(",")}\r\n`).join("")
}

function csvCell(text: string): string {
  const defused = spreadsheetCell(text)
  return /[",\r\n]/.test(defused) ? `"${defused.replaceAll('"', '""')}"` : defused
}

/** Hands the browser a file to save. */
export function saveFile(name: string, type: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }))
  const link = document.createElement("a")
  link.href = url
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(url), 10_000)
}
