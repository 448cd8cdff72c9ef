import { createLineScanner, findLineEnd } from "./line-scanner"
import { quotedFields, quotedFieldsOfMany } from "./quoted-fields"

/** One record of a CSV file: the line on which it starts, its text, and its fields unless it cannot be read. */
export type CsvRecord = {
  line: number
  raw: string
  fields: readonly string[]
  problem: "bad-quote" | "too-long" | null
}

export type RecordCutter = {
  /** The records that end in the text seen so far; with `isLast` also what is left. */
  push: (text: string, isLast: boolean) => CsvRecord[]
}

/** The longest record that is read; a longer line is no row of a clinic's records but a damaged file. */
export const longestRecord = 1_048_576

/**
 * Cuts the text of a CSV file into records, piece by piece, keeping no more than one record in memory.
 *
 * Lines end in LF, CRLF or CR; a quoted line break makes a record span lines; an empty line is no record. A quote that
 * breaks the rules, or is not closed within `longestRecord` characters, costs the line it stands on: reading goes on with
 * the next one.
 */
export function createRecordCutter(): RecordCutter {
  let rest = ""
  let line = 1
  let isInLongLine = false

  function push(text: string, isLast: boolean): CsvRecord[] {
    const all = rest + text
    // A CR at the end may be the first half of CRLF.
    const unread = !isLast && all.endsWith("\r") ? all.slice(0, -1) : all
    const hasBareReturns = /\r(?!\n)/.test(unread)
    const context: Context = { isLast, hasBareReturns, records: [] }
    const start = isInLongLine ? skipLongLine(unread, context) : 0
    const cut = hasBareReturns || unread.includes('"') ? cutCarefully : cutPlainly
    rest = all.slice(cut(unread, start, context))
    return context.records
  }

  function skipLongLine(text: string, { hasBareReturns }: Context): number {
    const lineEnd = findLineEnd(text, { from: 0, hasBareReturns })
    if (!lineEnd) return text.length
    isInLongLine = false
    line += 1
    return lineEnd.next
  }

  /** Without quotes every line is a record. Gives where reading goes on, as the next one does. */
  function cutPlainly(text: string, start: number, context: Context): number {
    const lines = text.slice(start).split("\n")
    const tail = lines.pop() ?? ""
    for (const ended of lines) {
      addPlainLine(ended.endsWith("\r") ? ended.slice(0, -1) : ended, context)
      line += 1
    }
    if (tail.length > longestRecord) return startLongLine(text, text.length - tail.length, context)
    if (!context.isLast) return text.length - tail.length
    addPlainLine(tail, context)
    return text.length
  }

  function cutCarefully(text: string, start: number, context: Context): number {
    const scan = createLineScanner(text, { ...context, longestRecord })
    let at = start
    while (at < text.length) {
      const found = scan(at)
      if (found.state === "waiting") break
      if (found.state === "long line") {
        at = startLongLine(text, at, context)
        break
      }
      const isRead = found.state === "closed" && addRecord(text.slice(at, found.end), found.lines, context)
      if (!isRead) context.records.push(unreadable(line, text.slice(at, found.firstEnd), "bad-quote"))
      at = isRead ? found.next : found.firstNext
      line += isRead ? found.lines : 1
    }
    settleQuotes(context.records)
    return at
  }

  function addRecord(raw: string, lines: number, context: Context): boolean {
    if (lines === 1) {
      addLine(raw, context)
      return true
    }
    const fields = quotedFields(raw)
    if (fields) context.records.push({ line, raw, fields, problem: null })
    return fields !== null
  }

  function addLine(raw: string, context: Context): void {
    if (raw.includes('"') && raw.length <= longestRecord)
      context.records.push({ line, raw, fields: unsettled, problem: null })
    else addPlainLine(raw, context)
  }

  function addPlainLine(raw: string, { records }: Context): void {
    if (raw.length > longestRecord) records.push(unreadable(line, raw, "too-long"))
    else if (!isBlank(raw)) records.push({ line, raw, fields: raw.split(","), problem: null })
  }

  function startLongLine(text: string, at: number, { records }: Context): number {
    records.push(unreadable(line, text.slice(at), "too-long"))
    isInLongLine = true
    return text.length
  }

  return { push }
}

type Context = { isLast: boolean; hasBareReturns: boolean; records: CsvRecord[] }

const unsettled: readonly string[] = []

/** Reads the fields of all one-line records with quotes in one go. */
function settleQuotes(records: CsvRecord[]): void {
  const quoted = records.filter((record) => record.fields === unsettled && record.problem === null)
  const fieldsOfAll = quotedFieldsOfMany(quoted.map((record) => record.raw))
  quoted.forEach((record, index) => {
    const fields = fieldsOfAll[index]
    if (fields) record.fields = fields
    else record.problem = "bad-quote"
  })
}

function unreadable(line: number, raw: string, problem: "bad-quote" | "too-long"): CsvRecord {
  return { line, raw: raw.slice(0, 1000), fields: [], problem }
}

function isBlank(raw: string): boolean {
  return raw === "" || (raw.charCodeAt(0) <= 32 && raw.trim() === "")
}
