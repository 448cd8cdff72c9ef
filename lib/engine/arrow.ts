import "server-only"
import { Bool, Float64, Int32, Table, Utf8, tableToIPC, vectorFromArray, type DataType } from "apache-arrow"
import { readEnvironment } from "../env"
import { openSnapshot } from "./snapshot"
import { toCell, type Cell, type Param } from "./values"

/** The declared type of one column of a large table: days travel as text "2026-01-31", lists as text joined by ";". */
export type ColumnType = "text" | "integer" | "number" | "boolean" | "list"

/** A question whose answer is a large table; every column of the select is declared, in order. */
export type TableQuestion = { readonly sql: string; readonly columns: Readonly<Record<string, ColumnType>> }

/** Asks the current snapshot and encodes the rows as an Arrow IPC stream with the declared schema, never an inferred one. */
export async function askAsArrow(
  question: TableQuestion,
  params: Record<string, Param> = {},
): Promise<Uint8Array> {
  const instance = await openSnapshot(readEnvironment().dataDir)
  const connection = await instance.connect()
  try {
    const reader = await connection.runAndReadAll(question.sql, params)
    const names = reader.columnNames()
    const declared = Object.keys(question.columns)
    if (names.join() !== declared.join())
      throw new RangeError(`the table question declares ${declared.join()} but selects ${names.join()}`)
    const cells = reader.convertColumns(toCell)
    const vectors = Object.fromEntries(
      Object.entries(question.columns).map(([name, type], index) => [
        name,
        vectorOf(type, cells[index] ?? []),
      ]),
    )
    return tableToIPC(new Table(vectors), "stream")
  } finally {
    connection.closeSync()
  }
}

function vectorOf(type: ColumnType, cells: readonly Cell[]) {
  const { arrow, check } = encoders[type]
  return vectorFromArray(
    cells.map((cell) => (cell === null ? null : check(cell))),
    arrow(),
  )
}

type Encoder = { arrow: () => DataType; check: (cell: Cell) => string | number | boolean }

const encoders: Readonly<Record<ColumnType, Encoder>> = {
  text: { arrow: () => new Utf8(), check: textOf },
  integer: { arrow: () => new Int32(), check: numberOf },
  number: { arrow: () => new Float64(), check: numberOf },
  boolean: { arrow: () => new Bool(), check: booleanOf },
  list: { arrow: () => new Utf8(), check: listOf },
}

function textOf(cell: Cell): string {
  if (typeof cell === "string") return cell
  throw new TypeError("a column declared as text holds something else")
}

function numberOf(cell: Cell): number {
  if (typeof cell === "number") return cell
  throw new TypeError("a column declared as a number holds something else")
}

function booleanOf(cell: Cell): boolean {
  if (typeof cell === "boolean") return cell
  throw new TypeError("a column declared as boolean holds something else")
}

function listOf(cell: Cell): string {
  if (Array.isArray(cell)) return cell.join(";")
  throw new TypeError("a column declared as a list holds something else")
}
