import { parse } from "csv-parse/sync"
import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { csvOf } from "../../app/(clinic)/patients/csv"
import { find } from "../../app/(clinic)/patients/find"
import { spreadsheetCell } from "../../lib/domain/spreadsheet-cell"
import { csvLines } from "../../lib/export/csv"
import { forInputs } from "../helpers/fuzz"
import { hostileText, mostly, wellFormed } from "../helpers/hostile"

const cell = mostly("-5", "=1+1", "Smith, Jane", 'say "hi"', "two\nlines").map(wellFormed)
const row = fc.array(cell, { minLength: 2, maxLength: 4 })
/** What a spreadsheet would run; a negative number it only shows. */
const formula = /^[=+\-@\t\r\n＝＋－＠](?!\d+(\.\d+)?$)/

describe("no cell of a file is a formula, and taking the guard away gives back what was there:", () => {
  test("one cell", () =>
    forInputs(hostileText, (text) => {
      const guarded = spreadsheetCell(text)
      expect(guarded).not.toMatch(formula)
      expect([text, `'${text}`]).toContain(guarded)
    }))

  test("a file of the server", () =>
    forInputs(row, (cells) => {
      const [read = []] = parse(csvLines([cells]), { relax_column_count: true, skip_empty_lines: false })
      expect(read.map((one) => one.replace(/^'/, ""))).toEqual(cells.map((one) => one.replace(/^'/, "")))
      for (const one of read) expect(one).not.toMatch(formula)
    }))

  test("a file of the Patients table", () =>
    forInputs(row, (cells) => {
      const [read = []] = parse(csvOf([cells]), { relax_column_count: true, record_delimiter: "\r\n" })
      expect(read.map((one) => one.replace(/^'/, ""))).toEqual(cells.map((one) => one.replace(/^'/, "")))
      for (const one of read) expect(one).not.toMatch(formula)
    }))
})

test("any words that are looked for among names find or do not find", () =>
  forInputs(fc.tuple(hostileText, fc.array(hostileText, { maxLength: 3 })), ([query, texts]) => {
    const found = find(texts, query)
    if (found !== null) expect(found.length).toBe(texts.length)
  }))
