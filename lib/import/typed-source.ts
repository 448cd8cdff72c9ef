import type { FactKind } from "../domain/fact-kinds"
import type { Source } from "./source"

/** The cells of one row by their column in the contract; a column that is not named is empty. */
export type TypedRow = Readonly<Record<string, string>>

/** What a person typed, as rows of one file of an extract. */
export type TypedRows = { kind: FactKind; rows: readonly TypedRow[] }

/** The line on which the first row stands; the names of the columns are above it. */
export const firstTypedLine = 2

/** The rows as the file that an extract would have of them, so that one reader judges both. */
export function typedSource(typed: TypedRows): Source {
  const bytes = Buffer.from(csvOf(typed.rows), "utf8")
  const file = { kind: typed.kind, size: bytes.length, open: async () => chunk(bytes) }
  return { files: [file], ignored: [], close: async () => {} }
}

async function* chunk(bytes: Buffer): AsyncGenerator<Buffer> {
  yield bytes
}

/** A row takes one line, whatever was typed, so that a line tells its row. */
function csvOf(rows: readonly TypedRow[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  const lines = rows.map((row) => columns.map((column) => quoted(row[column] ?? "")).join(","))
  return `${[columns.join(","), ...lines].join("\n")}\n`
}

function quoted(cell: string): string {
  return `"${cell.replaceAll('"', '""').replace(/[\r\n]+/g, " ")}"`
}
