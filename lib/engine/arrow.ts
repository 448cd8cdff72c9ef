import "server-only"
import {
  Bool,
  Dictionary,
  Float64,
  Int32,
  Table,
  Utf8,
  makeData,
  makeVector,
  tableToIPC,
  vectorFromArray,
  type Vector,
} from "apache-arrow"
import type { Scope } from "../access/scope"
import { withinScope } from "./scoped"
import { toCell, type Cell, type Param } from "./values"

/**
 * The declared type of one column of a large table: days travel as text "2026-01-31", lists as text joined by ";".
 * Texts are dictionary-encoded: each distinct word travels once, the rows as numbers into the words.
 */
export type ColumnType = "text" | "integer" | "number" | "boolean" | "list"

/** A question whose answer is a large table; every column of the select is declared, in order. */
export type TableQuestion = { readonly sql: string; readonly columns: Readonly<Record<string, ColumnType>> }

/** Asks what the scope holds of the current snapshot and encodes the rows as an Arrow IPC stream with the declared schema, never an inferred one. */
export async function askAsArrow(
  scope: Scope,
  question: TableQuestion,
  params: Record<string, Param> = {},
): Promise<Uint8Array> {
  return withinScope(scope, async (connection) => {
    const reader = await connection.runAndReadAll(question.sql, params)
    const names = reader.columnNames()
    const declared = Object.keys(question.columns)
    if (names.join() !== declared.join())
      throw new RangeError(`the table question declares ${declared.join()} but selects ${names.join()}`)
    return tableStream(question.columns, reader.convertColumns(toCell))
  })
}

/** Columns of cells, in the order of their declared types, as an Arrow IPC stream. Throws TypeError where a cell is of another type. */
export function tableStream(
  columns: Readonly<Record<string, ColumnType>>,
  cells: readonly (readonly Cell[])[],
): Uint8Array {
  const vectors = Object.entries(columns).map(([name, type], place) => [
    name,
    encoders[type](cells[place] ?? []),
  ])
  return tableToIPC(new Table(Object.fromEntries(vectors)), "stream")
}

const encoders: Readonly<Record<ColumnType, (cells: readonly Cell[]) => Vector>> = {
  text: (cells) => wordsVector(cells, textOf),
  list: (cells) => wordsVector(cells, listOf),
  integer: (cells) => {
    const data = Int32Array.from(cells, (cell) => (cell === null ? 0 : numberOf(cell)))
    return makeVector(makeData({ type: new Int32(), data, ...validity(cells) }))
  },
  number: (cells) => {
    const data = Float64Array.from(cells, (cell) => (cell === null ? 0 : numberOf(cell)))
    return makeVector(makeData({ type: new Float64(), data, ...validity(cells) }))
  },
  boolean: (cells) => {
    const data = bits(cells, (cell) => cell !== null && booleanOf(cell))
    return makeVector(makeData({ type: new Bool(), data, ...validity(cells) }))
  },
}

function wordsVector(cells: readonly Cell[], read: (cell: Cell) => string): Vector {
  const codeByWord = new Map<string, number>()
  const data = Int32Array.from(cells, (cell) => {
    if (cell === null) return 0
    const word = read(cell)
    const code = codeByWord.get(word) ?? codeByWord.size
    codeByWord.set(word, code)
    return code
  })
  const dictionary = vectorFromArray([...codeByWord.keys()], new Utf8())
  const type = new Dictionary(new Utf8(), new Int32())
  return makeVector(makeData({ type, data, dictionary, ...validity(cells) }))
}

/** Which cells hold a value, one bit each from the lowest up. */
function validity(cells: readonly Cell[]) {
  return {
    length: cells.length,
    nullCount: cells.reduce<number>((count, cell) => (cell === null ? count + 1 : count), 0),
    nullBitmap: bits(cells, (cell) => cell !== null),
  }
}

function bits(cells: readonly Cell[], isSet: (cell: Cell) => boolean): Uint8Array {
  const bytes = new Uint8Array(Math.ceil(cells.length / 8))
  cells.forEach((cell, row) => {
    if (isSet(cell)) bytes[row >> 3] = (bytes[row >> 3] ?? 0) | (1 << (row & 7))
  })
  return bytes
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
