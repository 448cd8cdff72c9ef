import { existsSync, readFileSync } from "node:fs"
import path from "node:path"

/** The bytes of a file of an extract; undefined when the extract has no such file. */
export type OpenFile = (file: string) => Uint8Array | undefined

/** One data row: its cells by lower-case column name, white space trimmed; null when the field count is wrong. */
export type CsvRow = Record<string, string> | null

export function filesInFolder(folder: string): OpenFile {
  return (file) => {
    const place = path.join(folder, file)
    return existsSync(place) ? readFileSync(place) : undefined
  }
}

export function filesFromTexts(texts: Record<string, string>): OpenFile {
  return (file) => (texts[file] === undefined ? undefined : new TextEncoder().encode(texts[file]))
}

/** The rows of one file; none when it is missing or rejected as a whole. */
export function readCsv(bytes: Uint8Array | undefined, requiredColumns: readonly string[]): CsvRow[] {
  const text = bytes ? decode(bytes) : null
  if (text === null) return []
  const [header, ...records] = recordsOf(text)
  if (!header) return []
  const columns = header.map((name) => name.trim().toLowerCase())
  const isComplete = requiredColumns.every((name) => columns.includes(name))
  if (!isComplete || new Set(columns).size !== columns.length) return []
  return records.map((cells) => {
    if (cells.length !== columns.length) return null
    return Object.fromEntries(columns.map((name, index) => [name, (cells[index] ?? "").trim()]))
  })
}

/** UTF-8; Windows-1252 only for bytes without a single valid multi-byte UTF-8 sequence; else null. */
function decode(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes)
  } catch {
    const hasMultiByte = /[\u0080-\ufffc\ufffe-\uffff]/.test(new TextDecoder("utf-8").decode(bytes))
    return hasMultiByte ? null : new TextDecoder("windows-1252").decode(bytes)
  }
}

/** RFC 4180, character by character; an empty line is no record. */
function recordsOf(text: string): string[][] {
  const records: string[][] = []
  let cells: string[] = []
  let cell = ""
  let isQuoted = false
  let hadQuote = false
  function endCell(): void {
    cells.push(cell)
    cell = ""
  }
  function endRecord(): void {
    if (cells.length > 0 || cell !== "" || hadQuote) {
      endCell()
      records.push(cells)
    }
    cells = []
    hadQuote = false
  }
  for (let at = 0; at < text.length; at += 1) {
    const character = text.charAt(at)
    if (isQuoted) {
      if (character !== '"') cell += character
      else if (text.charAt(at + 1) === '"') {
        cell += '"'
        at += 1
      } else isQuoted = false
    } else if (character === '"' && cell === "") {
      isQuoted = true
      hadQuote = true
    } else if (character === ",") endCell()
    else if (character === "\n") endRecord()
    else if (character === "\r" && text.charAt(at + 1) === "\n") continue
    else cell += character
  }
  endRecord()
  return records
}
