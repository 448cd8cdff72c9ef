import { parse } from "csv-parse/sync"
import { describe, expect, test } from "vitest"
import { csvOf } from "../../../app/(clinic)/patients/csv"
import { csvLines } from "../../../lib/export/csv"

// The signs OWASP lists under "CSV Injection"; the full-width forms from memory.
const formulas = [
  '=HYPERLINK("https://elsewhere.test","open")',
  "+1-555-0100",
  "-2+3",
  "@SUM(A1:A9)",
  "\t=1+1",
  "\r=1+1",
  "\n=1+1",
  "＝1+1",
  "＋1+1",
  "－1+1",
  "＠SUM(A1)",
  '=1+1","=2+2',
]

const plain = ["Sollie, Ingrid", 'the "old" record', "two\nlines", "", "O'Hara", "a=b", " =1"]

const writers = {
  "a file the server writes": (cells: readonly string[]) => csvLines([cells]),
  "a file the panel saves": (cells: readonly string[]) => csvOf([cells]),
}

describe.each(Object.entries(writers))("%s", (_title, write) => {
  test("holds no cell that a spreadsheet would run", () => {
    const cells = parse(write(formulas))[0]

    expect(cells).toEqual(formulas.map((text) => `'${text}`))
  })

  test("keeps every other text as it is, through quotes, commas and line ends", () => {
    expect(parse(write(plain))[0]).toEqual(plain)
  })

  test("keeps a negative number a number", () => {
    expect(write(["-5", "-3.25"]).trim()).toBe("-5,-3.25")
  })
})

test("a number of our own is written plain", () => {
  expect(csvLines([[-5, 2.5, null, true]])).toBe("-5,2.5,,true\n")
})
