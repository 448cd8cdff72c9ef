import type { FileKind } from "./file-kind"
import type { CsvRecord } from "./records"
import type { Problem } from "./problems"

export type Header = {
  indexByColumn: ReadonlyMap<string, number>
  columnCount: number
  /** Columns the contract does not know; they are left out and named once. */
  unknown: string[]
}

const mostColumns = 1000

/** Reads the line of column names, in any order and any case, or says why the file cannot be used. */
export function readHeader(record: CsvRecord, { required, optional }: FileKind): Header | Problem {
  if (record.problem === "too-long")
    return problem("too-long", null, "the first line is too long to be column names")
  if (record.problem === "bad-quote")
    return problem(
      "bad-quote",
      null,
      "the line of column names has a quotation mark that is not closed or doubled",
    )
  if (record.fields.length > mostColumns)
    return problem("field-count", null, `has ${record.fields.length} columns; ${mostColumns} are the most`)

  const names = record.fields.map((name) => name.trim().toLowerCase())
  const indexByColumn = new Map<string, number>()
  for (const [index, name] of names.entries()) {
    if (name === "") continue
    if (indexByColumn.has(name)) return problem("field-count", name, "stands twice among the column names")
    indexByColumn.set(name, index)
  }
  const missing = required.filter((column) => !indexByColumn.has(column))
  if (missing.length > 0) return missingColumns(missing, names)
  const known = new Set([...required, ...optional, "retracted"])
  const unknown = [...indexByColumn.keys()].filter((name) => !known.has(name))
  return { indexByColumn, columnCount: names.length, unknown: unknown.map((name) => name.slice(0, 100)) }
}

function missingColumns(missing: string[], names: string[]): Problem {
  const list = missing.join(", ")
  const separator = [";", "\t"].find((mark) => names.length === 1 && names[0]?.includes(mark))
  const hint = separator
    ? `; the columns must be separated by commas, here they are by ${separator === ";" ? "semicolons" : "tabs"}`
    : ""
  const noun = missing.length === 1 ? "is a required column and missing" : "are required columns and missing"
  return problem("missing-value", list, `${noun}${hint}`)
}

function problem(code: Problem["code"], column: string | null, message: string): Problem {
  return { column, value: null, code, message }
}
