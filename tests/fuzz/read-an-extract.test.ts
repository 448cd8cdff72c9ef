import { writeFileSync } from "node:fs"
import path from "node:path"
import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { factKinds, type FactKind } from "../../lib/domain/fact-kinds"
import { dayFromText, textOfDay } from "../../lib/import/calendar"
import { createRowChecker } from "../../lib/import/check-row"
import { clinicClock } from "../../lib/import/clinic-clock"
import { decimalFromText } from "../../lib/import/decimals"
import { sniffEncoding } from "../../lib/import/encoding"
import { fileKinds } from "../../lib/import/file-kinds"
import { readHeader } from "../../lib/import/header"
import { plainUnit, readLabCodes } from "../../lib/import/lab-codes"
import { isLoinc } from "../../lib/import/loinc"
import { quotedFields } from "../../lib/import/quoted-fields"
import { readFile } from "../../lib/import/read-file"
import { openSource } from "../../lib/import/source"
import { momentFromText } from "../../lib/import/times"
import { day, importDay } from "../helpers/check-rows"
import { answerOrRefusal, expectPlainWords, forInputs } from "../helpers/fuzz"
import { hostileText, mostly, wellFormed } from "../helpers/hostile"
import { temporaryFolder } from "../helpers/temporary-folder"
import { zipOf } from "../helpers/zip"

const context = {
  ...{ importDay: day(importDay), clock: clinicClock("America/Chicago"), labCodes: readLabCodes() },
  ...{ births: new Map([["P1", day("1960-05-01")]]), staffIds: new Set(["S1"]) },
}

/** Values that some column takes. */
const goodValues = [
  ...[
    "",
    "P1",
    "S1",
    "X7",
    "2026-01-31",
    "2026-01-31T14:30",
    "120",
    "80",
    "1.5",
    "female",
    "true",
    "no",
    "office",
    "nurse",
  ],
  ...[
    "creatinine",
    "2160-0",
    "mg/dL",
    "umol/L",
    "<5",
    "lisinopril 10 mg",
    "atc",
    "icd10",
    "N18.3",
    "recall_24h",
    "en-US",
  ],
]
const cell = mostly(...goodValues)

describe("a text of the extract is read or refused", () => {
  test("as a day", () =>
    forInputs(cell, (text) => {
      const found = dayFromText(text)
      if (found !== null) expect(textOfDay(found)).toBe(text)
    }))

  test("as a time", () =>
    forInputs(cell, (text) => {
      const found = momentFromText(text, context.clock)
      if (found !== null)
        expect(Number.isSafeInteger(found.instant) && Number.isSafeInteger(found.day)).toBe(true)
    }))

  test("as a number", () =>
    forInputs(cell, (text) => {
      const found = decimalFromText(text)
      if (found !== null) expect(found).toMatch(/^-?\d+(\.\d+)?$/)
    }))

  test("as a LOINC code and as a unit", () =>
    forInputs(cell, (text) => {
      expect(typeof isLoinc(text)).toBe("boolean")
      expect(plainUnit(plainUnit(text))).toBe(plainUnit(text))
    }))

  test("as the fields of a line with quotation marks", () =>
    forInputs(fc.tuple(hostileText.map(wellFormed), hostileText.map(wellFormed)), ([first, second]) => {
      const written = [first, second].map((one) => `"${one.replaceAll('"', '""')}"`).join(",")
      expect(quotedFields(written)).toEqual([first, second])
      expect(() => quotedFields(first + second)).not.toThrow()
    }))

  test("as a line of column names", () =>
    forInputs(
      fc.tuple(fc.constantFrom(...factKinds), fc.array(cell, { maxLength: 12 })),
      ([kind, fields]) => {
        const read = readHeader({ line: 1, raw: fields.join(","), fields, problem: null }, fileKinds[kind])
        if ("message" in read) expectPlainWords(read.message, fields)
        else expect(read.columnCount).toBe(fields.length)
      },
    ))
})

describe.each(factKinds)("a row of %s is kept or refused, whatever stands", (kind) => {
  const { required, optional } = fileKinds[kind]
  const columns = [...required, ...optional, "retracted"]
  const header = readHeader({ line: 1, raw: "", fields: columns, problem: null }, fileKinds[kind])
  if ("message" in header) throw new Error(header.message)
  const check = createRowChecker(header, fileKinds[kind], context)

  test.each(columns)("in its column %s", (column) =>
    forInputs(
      fc.tuple(hostileText, fc.array(cell, { minLength: columns.length, maxLength: columns.length })),
      ([hostile, others]) => {
        const fields = columns.map((name, place) =>
          name === column ? hostile : likely(kind, name, others[place] ?? ""),
        )
        const row = check({ line: 2, raw: fields.join(","), fields, problem: null })
        if (row.verdict !== "rejected") return expect(row.key).not.toBeNull()
        expectPlainWords(row.problem.message)
        expect(row.problem.value?.length ?? 0).toBeLessThanOrEqual(200)
      },
    ),
  )
})

/** A value that the column takes most of the time, so that reading gets past it. */
function likely(kind: FactKind, column: string, other: string): string {
  if (other !== "" && goodValues.includes(other))
    return other === "P1" || Math.abs(other.length - 5) < 3 ? other : goodOf(kind, column)
  return goodOf(kind, column)
}

function goodOf(kind: FactKind, column: string): string {
  if (column === "patient_id") return "P1"
  if (column.endsWith("_id")) return "X7"
  if (column.endsWith("_on") || column === "birth_date")
    return column === "birth_date" ? "1960-05-01" : "2026-01-31"
  if (column.endsWith("_at")) return "2026-01-31T14:30"
  const words: Record<string, string> = {
    ...{
      sex: "female",
      kind: kind === "visits" ? "office" : "",
      setting: "office",
      systolic: "120",
      diastolic: "80",
    },
    ...{
      test: "creatinine",
      value: "100",
      unit: "umol/L",
      drug: "lisinopril",
      method: "recall_24h",
      sodium_mg: "2000",
    },
    ...{ name: "Dr A", role: "nurse", substance: "lisinopril", code_system: "icd10", code: "N18.3" },
  }
  return words[column] ?? ""
}

describe("a file of any bytes is read to its end, and every row is accounted for,", () => {
  const piece = fc.oneof(
    { weight: 3, arbitrary: cell },
    { weight: 3, arbitrary: fc.constantFrom(",", "\n", "\r\n", "\r", '"', '""') },
  )
  const bytes = fc.oneof(
    { weight: 5, arbitrary: fc.array(piece, { maxLength: 60 }).map((parts) => Buffer.from(parts.join(""))) },
    { weight: 1, arbitrary: fc.uint8Array({ maxLength: 200 }).map((some) => Buffer.from(some)) },
  )

  test.each(factKinds)("as %s", (kind) =>
    forInputs(
      fc.tuple(bytes, fc.boolean(), fc.integer({ min: 1, max: 64 })),
      async ([body, hasHeader, size]) => {
        const head = hasHeader
          ? `${[...fileKinds[kind].required, ...fileKinds[kind].optional].join(",")}\n`
          : ""
        const content = Buffer.concat([Buffer.from(head), body])
        let read = 0
        const tally = await readFile({
          ...{ fileKind: fileKinds[kind], context, chunks: chunksOf(content, size) },
          encoding: await sniffEncoding(chunksOf(content, size)),
          sink: { good: () => {}, retracted: () => {}, rejected: () => {}, drain: async () => {} },
          onBytes: (count) => (read += count),
        })
        expect(tally.good + tally.retracted + tally.rejected).toBe(tally.dataRows)
        expect(read).toBe(content.length)
      },
    ),
  )
})

async function* chunksOf(bytes: Buffer, size: number) {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}

describe("a zip file", () => {
  const scratch = temporaryFolder()
  let whole: Buffer
  beforeAll(async () => {
    whole = await zipOf({
      "x/staff.csv": "staff_id,name,role\nS1,Dr A,nurse\n",
      "x/visits.csv": "visit_id\n",
    })
  })
  afterAll(() => scratch.remove())

  const change = fc.record({ at: fc.nat({ max: 600 }), bytes: fc.uint8Array({ minLength: 1, maxLength: 4 }) })
  const cut = fc.option(fc.nat({ max: 600 }), { freq: 4, nil: null })

  test("with any of its bytes changed is read or refused, and nothing of it reaches the disk", () =>
    forInputs(fc.tuple(fc.array(change, { maxLength: 6 }), cut), async ([changes, end]) => {
      const bytes = Buffer.from(whole)
      for (const one of changes) bytes.set(one.bytes, Math.min(one.at, bytes.length - one.bytes.length))
      await readZip(end === null ? bytes : bytes.subarray(0, end))
    }))

  test("of any bytes is refused", () =>
    forInputs(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
      await readZip(Buffer.concat([Buffer.from("PK\u0003\u0004", "latin1"), Buffer.from(bytes)]))
    }))

  async function readZip(bytes: Buffer): Promise<void> {
    const file = path.join(scratch.folder, "changed.zip")
    writeFileSync(file, bytes)
    await answerOrRefusal(
      async () => {
        const source = await openSource(file)
        try {
          for (const one of source.files) {
            let size = 0
            for await (const chunk of await one.open()) size += chunk.length
            expect(size).toBeLessThan(10_000)
          }
        } finally {
          await source.close()
        }
      },
      { codes: ["import-refused"] },
    )
  }
})
