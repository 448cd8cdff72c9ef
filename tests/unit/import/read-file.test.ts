import { describe, expect, test } from "vitest"
import type { FactKind } from "../../../lib/domain/fact-kinds"
import { clinicClock } from "../../../lib/import/clinic-clock"
import { sniffEncoding } from "../../../lib/import/encoding"
import { fileKinds } from "../../../lib/import/file-kinds"
import { readLabCodes } from "../../../lib/import/lab-codes"
import { readFile, type GoodRow, type RejectedRow, type RowName } from "../../../lib/import/read-file"
import { day, importDay } from "../../helpers/check-rows"

const labCodes = readLabCodes()
const header = "patient_id,taken_at,systolic,diastolic,setting"

async function read(kind: FactKind, content: string | Buffer, chunkSize = 64) {
  const bytes = Buffer.from(content)
  const good: GoodRow[] = []
  const retracted: RowName[] = []
  const rejected: RejectedRow[] = []
  let readBytes = 0
  const tally = await readFile({
    fileKind: fileKinds[kind],
    chunks: chunksOf(bytes, chunkSize),
    encoding: await sniffEncoding(chunksOf(bytes, chunkSize)),
    context: {
      ...{ importDay: day(importDay), clock: clinicClock("UTC"), labCodes },
      ...{ births: new Map([["P1", 0]]), staffIds: new Set<string>() },
    },
    sink: {
      good: (row) => void good.push(row),
      retracted: (row) => void retracted.push(row),
      rejected: (row) => void rejected.push(row),
      drain: async () => {},
    },
    onBytes: (count) => void (readBytes += count),
  })
  expect(tally.good + tally.retracted + tally.rejected).toBe(tally.dataRows)
  expect(readBytes).toBe(bytes.length)
  return { tally, good, retracted, rejected }
}

async function* chunksOf(bytes: Buffer, size: number) {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}

describe("column names", () => {
  test("in any order and any case, with blanks and a byte order mark", async () => {
    const text = "\uFEFFSetting, DIASTOLIC ,Systolic,Taken_At,patient_id\noffice,80,120,2026-01-01,P1\n"
    const { tally, good } = await read("readings", text)

    expect(tally).toMatchObject({ fileProblem: null, unknownColumns: [], good: 1 })
    expect(good[0]?.values).toEqual([
      "P1",
      null,
      Date.parse("2026-01-01T12:00Z"),
      true,
      "120",
      "80",
      "office",
      null,
    ])
  })

  test("unknown ones are named once and ignored", async () => {
    const { tally } = await read("readings", `${header},cuff,,\nP1,2026-01-01,120,80,office,large,x,\n`)

    expect(tally).toMatchObject({ unknownColumns: ["cuff"], good: 1, rejected: 0 })
  })

  test.each([
    ["a missing required column", "patient_id,taken_at,systolic,setting", "diastolic", "missing"],
    ["two of them", "patient_id,taken_at,setting", "systolic, diastolic", "missing"],
    ["a column named twice", `${header},Systolic`, "systolic", "twice"],
    ["an unknown column named twice", `${header},cuff,cuff`, "cuff", "twice"],
    ["semicolons between the columns", header.replaceAll(",", ";"), "patient_id", "by semicolons"],
    ["tabs between the columns", header.replaceAll(",", "\t"), "patient_id", "by tabs"],
    ["a broken quotation mark", `"${header}`, null, "quotation mark"],
    ["too many columns", `${header}${",".repeat(1000)}`, null, "1005 columns"],
  ])("%s rejects the file and all its rows", async (_, names, column, words) => {
    const { tally, rejected } = await read("readings", `${names}\nP1,2026-01-01,120,80,office\nx\n\ny\n`)

    expect(tally).toMatchObject({ dataRows: 3, good: 0, rejected: 3 })
    expect(tally.fileProblem?.message).toContain(words)
    if (column !== null) expect(tally.fileProblem?.column).toContain(column)
    expect(rejected).toEqual([])
  })

  test("an empty file has no column names", async () => {
    const { tally } = await read("readings", "\n\n")

    expect(tally).toMatchObject({
      dataRows: 0,
      fileProblem: { message: expect.stringContaining("is empty") },
    })
  })

  test("a file of column names alone has no rows and no problem", async () => {
    expect((await read("readings", header)).tally).toMatchObject({ dataRows: 0, fileProblem: null })
  })
})

describe("one bad row costs one row", () => {
  test("each is listed with line, column, value, reason and original text; all others are kept", async () => {
    const lines = [
      header,
      "P1,2026-01-01,120,80,office",
      "P1,2026-01-01,x,80,office",
      '"P1","2026-01-01","1\n20","80","office"',
      "P1,2026-01-01,120,80",
      'P1,2026-01-01,12"0,80,office',
      "",
      'P1,2026-01-01,"120",80,home',
    ]
    const { tally, good, rejected } = await read("readings", lines.join("\r\n"))

    expect(good.map((row) => row.line)).toEqual([2, 9])
    expect(tally).toMatchObject({ dataRows: 6, good: 2, rejected: 4 })
    expect(
      rejected.map(({ line, problem: { column, value, code }, original }) => ({
        line,
        column,
        value,
        code,
        original,
      })),
    ).toEqual([
      { line: 3, column: "systolic", value: "x", code: "unreadable", original: "P1,2026-01-01,x,80,office" },
      {
        line: 4,
        column: "systolic",
        value: "1\n20",
        code: "unreadable",
        original: '"P1","2026-01-01","1\n20","80","office"',
      },
      { line: 6, column: null, value: null, code: "field-count", original: "P1,2026-01-01,120,80" },
      { line: 7, column: null, value: null, code: "bad-quote", original: 'P1,2026-01-01,12"0,80,office' },
    ])
  })

  test("a very long value is cut in the list", async () => {
    const { rejected } = await read("readings", `${header}\nP1,2026-01-01,${"9".repeat(5000)},80,office`)

    expect(rejected[0]?.problem.value).toHaveLength(200)
  })
})

describe("bytes", () => {
  test("a mixture of encodings rejects the file at the byte offset", async () => {
    const content = Buffer.concat([
      Buffer.from(`${header}\nP1,é,`),
      Buffer.from([0xe9]),
      Buffer.from("\nP1\n"),
    ])
    const { tally } = await read("readings", content)

    expect(tally).toMatchObject({ dataRows: 2, rejected: 2 })
    expect(tally.fileProblem?.message).toContain(`byte offset ${content.indexOf(0xe9)}`)
  })

  test("Windows-1252 is read", async () => {
    const content = Buffer.from("staff_id,name,role\nS1,Ren\u00e9e,nurse\n", "latin1")
    const { good } = await read("staff", content)

    expect(good[0]?.values).toEqual(["S1", "Renée", "nurse", null])
  })
})

test("what a file names is told: clinicians, test patients, odd units, LOINC codes on no list", async () => {
  const patients = "patient_id,birth_date,sex,registered_on,clinician_id,is_test"
  const people = await read(
    "patients",
    `${patients}\nP1,1960-01-01,female,2020-01-01,S7,true\nP2,1960-01-01,male,2020-01-01,,no`,
  )
  const labs = "patient_id,collected_at,test,value,unit"
  const results = await read(
    "labs",
    `${labs}\nP1,2026-01-01,2160-0,100,umol/L\nP1,2026-01-01,2777-1,4,mg/dL\nP1,2026-01-02,2777-1,4,mg/dL\nP1,2026-01-02,17861-6,9,mg/dL`,
  )

  expect(people.tally).toMatchObject({ unknownClinicians: 1, testPatients: 1 })
  expect(results.tally.unitDisagreements).toBe(1)
  expect([...results.tally.rowsByUnlistedLoinc]).toEqual([
    ["2777-1", 2],
    ["17861-6", 1],
  ])
})

test("retractions and rejected rows carry the key of the fact they speak of", async () => {
  const text = `${header},pulse,retracted\nP1,2026-01-01,120,80,office,,\nP1,2026-01-01,120.0,80,OFFICE,,yes\nP1,2026-01-01,120,80,office,x,`
  const { good, retracted, rejected } = await read("readings", text)

  expect(retracted).toEqual([{ line: 3, key: good[0]?.key, isNumbered: true }])
  expect(rejected[0]?.name).toEqual({ line: 4, key: good[0]?.key, isNumbered: true })
})

test("the size of the chunks makes no difference", async () => {
  const text = `${header}\r\nP1,2026-01-01,120,80,office\r\n"P1","2026-01-0\n1",é,80,office\r\nP1,"2026-01-02",120,80,"home"\r\n`
  const whole = await read("readings", text, 10_000)

  for (let size = 1; size < 60; size += 1) expect(await read("readings", text, size)).toEqual(whole)
})
