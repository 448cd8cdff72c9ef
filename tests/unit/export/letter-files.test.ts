import { parse } from "csv-parse/sync"
import { readSheet } from "read-excel-file/node"
import { describe, expect, test } from "vitest"
import { lettersCsv, lettersXlsx, type LetterLine } from "../../../lib/export/letter-files"

// Read again by readers that others wrote.

const plain: LetterLine = {
  ...{ patientId: "P-1", name: "Ingrid Sollie", language: "nb", letterLanguage: "en" },
  ...{ letterhead: "Lowmoor\nKidney Clinic", subject: "A check, please", body: 'Dear "Ingrid",\n\nhello' },
  ...{ closing: "Regards", reasons: ["A urine test is due.", "A blood test is due."] },
  ...{ clinician: null, nextVisitOn: "2026-12-24" },
}

// The signs OWASP lists under "CSV Injection".
const starts = ["=", "+", "-", "@", "\t", "\r"] as const
const named = starts.map((sign) => ({ ...plain, name: `${sign}SUM(A1)`, subject: `${sign}x` }))

test("a letter is a line, whatever lines its parts have", () => {
  const [row, ...others] = parse(lettersCsv([plain]), { columns: true })

  expect(others).toEqual([])
  expect(row).toEqual({
    ...{ patient_id: "P-1", name: "Ingrid Sollie", preferred_language: "nb", letter_language: "en" },
    ...{ letterhead: plain.letterhead, subject: plain.subject, body: plain.body, closing: "Regards" },
    ...{ reasons: "A urine test is due.\nA blood test is due.", clinician: "", next_visit: "2026-12-24" },
  })
})

test("a workbook has the same, with a day that is one", async () => {
  const [heads, row] = await readSheet(Buffer.from(await lettersXlsx([plain])))

  expect(heads?.join(" ")).toBe(
    "patient_id name preferred_language letter_language letterhead subject body closing reasons clinician next_visit",
  )
  expect(row).toEqual([
    ...["P-1", "Ingrid Sollie", "nb", "en", plain.letterhead, plain.subject, plain.body, "Regards"],
    ...[plain.reasons.join("\n"), null, new Date("2026-12-24T00:00:00Z")],
  ])
})

describe("a text that begins as a formula does", () => {
  test("is made harmless in a CSV", () => {
    const rows = parse(lettersCsv(named), { columns: true })

    expect(rows).toMatchObject(
      named.map(({ name, subject }) => ({ name: `'${name}`, subject: `'${subject}` })),
    )
  })

  test("stays a text in a workbook, without a sign before it", async () => {
    const bytes = Buffer.from(await lettersXlsx(named))
    const [, ...rows] = await readSheet(bytes, { trim: false })

    // XML reads a carriage return as a line feed.
    expect(rows.map((row) => row[1]).map((name) => String(name).replace("\n", "\r"))).toEqual(
      named.map(({ name }) => name),
    )
  })
})
