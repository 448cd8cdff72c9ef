import { tableFromIPC } from "apache-arrow"
import { describe, expect, test } from "vitest"
import { tableStream } from "../../../lib/engine/arrow"

const columns = {
  name: "text",
  age: "integer",
  acr: "number",
  isTested: "boolean",
  classes: "list",
} as const

function rowsOf(stream: Uint8Array): unknown[] {
  return tableFromIPC(stream)
    .toArray()
    .map((row: { toJSON: () => unknown }) => row.toJSON())
}

describe("a large table as an Arrow stream", () => {
  test("reads back as it was, missing values and repeated words too", () => {
    const stream = tableStream(columns, [
      ["Ames", null, "Ames", "Ångström"],
      [40, null, 18, 99],
      [0.5, 12, null, 3],
      [true, false, null, true],
      [["a", "b"], [], null, ["a", "b"]],
    ])

    expect(rowsOf(stream)).toEqual([
      { name: "Ames", age: 40, acr: 0.5, isTested: true, classes: "a;b" },
      { name: null, age: null, acr: 12, isTested: false, classes: "" },
      { name: "Ames", age: 18, acr: null, isTested: null, classes: null },
      { name: "Ångström", age: 99, acr: 3, isTested: true, classes: "a;b" },
    ])
  })

  test("keeps the declared types when a column is empty or all missing", () => {
    const types = (stream: Uint8Array) =>
      tableFromIPC(stream).schema.fields.map((field) => String(field.type))
    const declared = ["Dictionary<Int32, Utf8>", "Int32", "Float64", "Bool", "Dictionary<Int32, Utf8>"]

    expect(types(tableStream(columns, [[], [], [], [], []]))).toEqual(declared)
    expect(types(tableStream(columns, [[null], [null], [null], [null], [null]]))).toEqual(declared)
  })

  test("refuses a cell of another type than declared", () => {
    expect(() => tableStream({ age: "integer" }, [["forty"]])).toThrow("declared as a number")
    expect(() => tableStream({ name: "text" }, [[7]])).toThrow("declared as text")
  })
})
