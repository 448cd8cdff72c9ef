import { describe, expect, test } from "vitest"
import { createRecordCutter, longestRecord, type CsvRecord } from "../../../lib/import/records"

function cut(...pieces: string[]): CsvRecord[] {
  const cutter = createRecordCutter()
  const records = pieces.flatMap((piece) => cutter.push(piece, false))
  return [...records, ...cutter.push("", true)]
}

function fieldsOf(text: string): (readonly string[] | string)[] {
  return cut(text).map((record) => record.problem ?? record.fields)
}

function linesOf(text: string): number[] {
  return cut(text).map((record) => record.line)
}

// RFC 4180, section 2, "Definition of the CSV Format": the rules 1 to 7 with their own examples.
describe("reads CSV after RFC 4180", () => {
  test.each([
    ["1, each record on a line of its own", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"],
    ["2, the last record without a line break", "aaa,bbb,ccc\r\nzzz,yyy,xxx"],
    ["5, fields in double quotes", '"aaa","bbb","ccc"\r\nzzz,yyy,xxx'],
  ])("rule %s", (_, text) => {
    expect(fieldsOf(text)).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ])
  })

  test("rule 6, line breaks in a quoted field", () => {
    expect(fieldsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ])
  })

  test("rule 7, a double quote in a quoted field is doubled", () => {
    expect(fieldsOf('"aaa","b""bb","ccc"')).toEqual([["aaa", 'b"bb', "ccc"]])
  })

  test("commas and empty fields in quotes", () => {
    expect(fieldsOf('"a,b","",c,\n')).toEqual([["a,b", "", "c", ""]])
  })
})

describe("the line of a record is the one on which it starts, as a text editor shows it", () => {
  test.each([
    ["LF", "a\nb\nc", [1, 2, 3]],
    ["CRLF", "a\r\nb\r\nc\r\n", [1, 2, 3]],
    ["CR alone", "a\rb\rc", [1, 2, 3]],
    ["a mixture", "a\r\nb\nc\rd", [1, 2, 3, 4]],
    ["empty lines are no records but lines", "a\n\n\nb\n \n\t\nc", [1, 4, 7]],
    ["a quoted LF", 'a,"1\n2\n3"\nb,x\nc,x', [1, 4, 5]],
    ["a quoted CRLF", 'a,"1\r\n2"\r\nb,x', [1, 3]],
    ["a quoted CR", 'a,"1\r2"\nb,x', [1, 3]],
    ["after a record with a bad quote", 'a,"1"x\nb,x', [1, 2]],
  ])("%s", (_, text, lines) => {
    expect(linesOf(text)).toEqual(lines)
  })
})

describe("a bad quote costs its own line only", () => {
  test.each([
    ["text after a closing quote", 'a,"b"c\nd,e', ["bad-quote", ["d", "e"]]],
    ["a quote inside an unquoted field", 'a,5" tube\nd,e', ["bad-quote", ["d", "e"]]],
    ["a pair of quotes inside an unquoted field", 'a,"b" and "c"\nd,e', ["bad-quote", ["d", "e"]]],
    ["a quote that is never closed", 'a,"b\nd,e\nf,g', ["bad-quote", ["d", "e"], ["f", "g"]]],
    [
      "a quote that is never closed, quoted rows after it",
      'a,"b\n"d",e\n"f","g"',
      ["bad-quote", ["d", "e"], ["f", "g"]],
    ],
    ["two of them", 'a,"b\nd,e\nf,"g\nh,i', ["bad-quote", ["d", "e"], "bad-quote", ["h", "i"]]],
    ["on the last line", 'd,e\na,"b', [["d", "e"], "bad-quote"]],
  ])("%s", (_, text, records) => {
    expect(fieldsOf(text)).toEqual(records)
  })

  test("blanks around a quoted field are let pass", () => {
    expect(fieldsOf('a, "b,c" ,d')).toEqual([["a", "b,c", "d"]])
  })

  test("keeps the original text of the line", () => {
    expect(cut('a,"b"c,é\r\nd,e')[0]?.raw).toBe('a,"b"c,é')
  })
})

describe("damaged files stay small in memory", () => {
  const long = "x".repeat(longestRecord + 1)

  test("a line longer than any record costs itself", () => {
    expect(cut(`a,b\n${long}\nc,d`).map((record) => record.problem ?? record.fields)).toEqual([
      ["a", "b"],
      "too-long",
      ["c", "d"],
    ])
  })

  test("it may come in many pieces, and keeps the count of lines", () => {
    const pieces = Array.from({ length: 40 }, () => "x,".repeat(50_000))
    const records = cut("a,b\n", ...pieces, "end\nc,", "d\n")

    expect(records.map(({ line, problem }) => ({ line, problem }))).toEqual([
      { line: 1, problem: null },
      { line: 2, problem: "too-long" },
      { line: 3, problem: null },
    ])
  })

  test("what is kept of it is short", () => {
    expect(cut(long)[0]?.raw.length).toBe(1000)
  })

  test("a quote open for longer than any record costs its first line", () => {
    const filler = `${"y".repeat(1000)}\n`.repeat(1100)
    const records = cut(`a,"b\n${filler}c,d`)

    expect(records[0]).toMatchObject({ line: 1, problem: "bad-quote" })
    expect(records.at(-1)).toMatchObject({ line: 1102, fields: ["c", "d"] })
    expect(records).toHaveLength(1102)
  })
})

test("an empty text has no records", () => {
  expect(cut("")).toEqual([])
  expect(cut("\r\n\r\n")).toEqual([])
})
