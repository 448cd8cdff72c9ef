import { stringify } from "csv-stringify/sync"
import fc from "fast-check"
import { expect, test } from "vitest"
import { createRecordCutter, type CsvRecord } from "../../../lib/import/records"

const field = fc.oneof(
  fc.constantFrom("", "a", "12.5", "x,y", '"', 'say "hi"', "one\ntwo", "one\r\ntwo", "one\rtwo", "\n", "é≥𝄞"),
  fc.string({ unit: "grapheme", maxLength: 8 }).map((text) => text.trim()),
)
const table = fc.array(fc.array(field, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 12 })
const delimiter = fc.constantFrom("\n", "\r\n", "\r")
const awkward = fc
  .array(fc.constantFrom("a", ",", '"', '"', "\n", "\r", "\r\n", " ", "é", '","', '"\n"'), { maxLength: 60 })
  .map((parts) => parts.join(""))

function cut(text: string, cuts: readonly number[]): CsvRecord[] {
  const cutter = createRecordCutter()
  const places = [...cuts.map((place) => place % (text.length + 1)), text.length].sort((a, b) => a - b)
  let from = 0
  const records = places.flatMap((place) => {
    const piece = text.slice(from, place)
    from = place
    return cutter.push(piece, false)
  })
  return [...records, ...cutter.push("", true)]
}

// csv-stringify, a library of its own, writes the file; the cutter reads it back.
test("whatever a CSV library writes is read back, field by field, on the right lines, in any pieces", () => {
  fc.assert(
    fc.property(
      table,
      delimiter,
      fc.boolean(),
      fc.array(fc.nat()),
      (rows, record_delimiter, quoted, cuts) => {
        const records = rows.filter((row) => row.join("").trim() !== "")
        const text = stringify(records, { record_delimiter, quoted, quoted_match: /[\r\n"]/ })
        const found = cut(text, cuts)

        expect(found.map((record) => record.fields)).toEqual(records)
        let line = 1
        for (const record of found) {
          expect(record.line).toBe(line)
          line += record.raw.split(/\r\n|\n|\r/).length
        }
      },
    ),
    { numRuns: 500 },
  )
})

test("the pieces in which any text arrives make no difference", () => {
  fc.assert(
    fc.property(awkward, fc.array(fc.nat()), (text, cuts) => {
      expect(cut(text, cuts)).toEqual(cut(text, []))
    }),
    { numRuns: 2000 },
  )
})

test("no line of any text is lost or read twice", () => {
  fc.assert(
    fc.property(awkward, (text) => {
      const lines = text.split(/\r\n|\n|\r/)
      const seen = new Set<number>()
      for (const { line, raw } of cut(text, []))
        raw.split(/\r\n|\n|\r/).forEach((_, index) => {
          expect(seen.has(line + index)).toBe(false)
          seen.add(line + index)
        })
      const unread = lines.filter((line, index) => line.trim() !== "" && !seen.has(index + 1))

      expect(unread).toEqual([])
    }),
    { numRuns: 2000 },
  )
})
