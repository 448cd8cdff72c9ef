import { tableFromIPC, type Table, type Vector } from "apache-arrow"
import type { panelColumns } from "../../../lib/questions/patient-table"

/** The columns of the panel table, by the type each is declared with. */
type Columns = typeof panelColumns
type Named<Type> = { [Name in keyof Columns]: Columns[Name] extends Type ? Name : never }[keyof Columns]

export type TextName = Named<"text" | "list">
export type NumberName = Named<"integer" | "number">
export type FlagName = Named<"boolean">

/** A text column as codes into its distinct words; code 0 is "missing" and its word is empty. */
export type TextColumn = { readonly codes: Uint32Array; readonly words: readonly string[] }

/**
 * The panel of one month as columns: numbers with NaN for missing, texts as codes. Rows are numbers from 0, never objects.
 * A column is decoded when it is first asked for.
 */
export type Panel = {
  readonly length: number
  readonly texts: (name: TextName) => TextColumn
  readonly numbers: (name: NumberName) => Float64Array
  readonly flags: (name: FlagName) => Uint8Array
  /** The standings of one measure, by its column. */
  readonly standings: (column: string) => TextColumn
  readonly text: (name: TextName, row: number) => string | null
  readonly number: (name: NumberName, row: number) => number | null
}

export function panelOf(table: Table): Panel {
  const texts = remembered((name: TextName) => decodeText(columnOf(table, name), table.numRows))
  const numbers = remembered((name: NumberName) => decodeNumbers(columnOf(table, name), table.numRows))
  const flags = remembered((name: FlagName) => decodeFlags(columnOf(table, name), table.numRows))
  const standings = remembered((column: string) => decodeText(columnOf(table, column), table.numRows))
  return {
    length: table.numRows,
    texts,
    numbers,
    flags,
    standings,
    text: (name, row) => {
      const column = texts(name)
      const code = column.codes[row] ?? 0
      return code === 0 ? null : (column.words[code] ?? null)
    },
    number: (name, row) => {
      const value = numbers(name)[row]
      return value === undefined || Number.isNaN(value) ? null : value
    },
  }
}

const loaded = new Map<string, Promise<Panel>>()

/** Reads the panel of a month once; `builtAt` makes a new snapshot a new panel. What failed is asked for again. */
export function loadPanel(month: string | null, builtAt: string): Promise<Panel> {
  const key = `${month ?? ""}|${builtAt}`
  const known = loaded.get(key)
  if (known) return known
  const panel = fetchPanel(month)
  loaded.clear()
  loaded.set(key, panel)
  panel.catch(() => loaded.delete(key))
  return panel
}

async function fetchPanel(month: string | null): Promise<Panel> {
  const response = await fetch(`/api/tables/patients${month === null ? "" : `?month=${month}`}`)
  if (!response.ok) throw new Error(`the panel was answered with status ${response.status}`)
  return panelOf(await tableFromIPC(response))
}

function columnOf(table: Table, name: string): Vector {
  const column = table.getChild(name)
  if (!column) throw new TypeError(`the panel has no column ${name}`)
  return column
}

/** A text column travels as numbers into its distinct words, and stays that; 0 is kept for "missing". */
function decodeText(column: Vector, length: number): TextColumn {
  const codes = new Uint32Array(length)
  const words = [""]
  const codeByWord = new Map<string, number>()
  let first = 0
  for (const chunk of column.data) {
    const codeOf = Array.from(chunk.dictionary ?? [], (word: unknown) => {
      if (typeof word !== "string") throw new TypeError("a text column of the panel holds something else")
      const code = codeByWord.get(word) ?? words.push(word) - 1
      codeByWord.set(word, code)
      return code
    })
    for (let row = 0; row < chunk.length; row += 1)
      codes[first + row] = chunk.getValid(row) ? (codeOf[chunk.values[row]] ?? 0) : 0
    first += chunk.length
  }
  return { codes, words }
}

function decodeNumbers(cells: Vector, length: number): Float64Array {
  const values = new Float64Array(length)
  for (let row = 0; row < length; row += 1) {
    const cell: unknown = cells.get(row)
    if (cell !== null && typeof cell !== "number")
      throw new TypeError("a number column of the panel holds something else")
    values[row] = cell ?? NaN
  }
  return values
}

function decodeFlags(cells: Vector, length: number): Uint8Array {
  const flags = new Uint8Array(length)
  for (let row = 0; row < length; row += 1) flags[row] = cells.get(row) === true ? 1 : 0
  return flags
}

function remembered<Name, Column>(decode: (name: Name) => Column): (name: Name) => Column {
  const columns = new Map<Name, Column>()
  return (name) => {
    const known = columns.get(name)
    if (known !== undefined) return known
    const column = decode(name)
    columns.set(name, column)
    return column
  }
}
