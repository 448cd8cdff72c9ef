import { describe, expect, test } from "vitest"
import { FileNotes, type FileReport } from "../../../lib/domain/import-report"
import { defaultSettings } from "../../../lib/domain/settings"
import { assertAccounted } from "../../../lib/import/accounting"
import { countBrokenMerges } from "../../../lib/import/broken-merges"
import { questionOf } from "../../../lib/import/question"
import { importReport } from "../../../lib/import/report"

function report(file: string, counts: Partial<FileReport>): FileReport {
  return {
    ...{ file, kind: file.replace(".csv", ""), isRejected: false, notes: FileNotes.parse({}) },
    ...{ dataRows: 0, added: 0, changed: 0, unchanged: 0, withdrawn: 0, held: 0, rejected: 0 },
    ...counts,
  }
}

describe("a truncated or damaged extract makes the import ask", () => {
  test.each([
    ["20 of 399 rows rejected, more than 5%", { dataRows: 399, rejected: 20 }, true],
    ["20 of 400 rows rejected, just 5%", { dataRows: 400, rejected: 20 }, false],
    ["19 of 19 rows rejected, fewer than 20", { dataRows: 19, rejected: 19 }, false],
    ["rejected and held count together", { dataRows: 100, rejected: 12, held: 8 }, true],
    ["all rows held", { dataRows: 30, held: 30 }, true],
  ])("%s", (_, counts, asks) => {
    expect(questionOf([report("readings.csv", counts)], [], defaultSettings) !== null).toBe(asks)
  })

  test.each([
    ["11 of 100 facts withdrawn", 11, 100, true],
    ["10 of 100 facts withdrawn, just 10%", 10, 100, false],
    ["1 of 5 facts withdrawn", 1, 5, true],
    ["none of none", 0, 0, false],
  ])("a full extract: %s", (_, withdrawn, inForce, asks) => {
    const withdrawals = [{ file: "visits.csv", withdrawn, inForce }]
    expect(questionOf([], withdrawals, defaultSettings) !== null).toBe(asks)
  })

  test("the thresholds are settings, and the question says which held", () => {
    const settings = {
      ...defaultSettings,
      "import.rejectShare": 0.5,
      "import.rejectRows": 2,
      "import.withdrawShare": 0,
    }
    const files = [
      report("labs.csv", { dataRows: 3, rejected: 2 }),
      report("diet.csv", { dataRows: 4, rejected: 2 }),
    ]

    expect(questionOf(files, [{ file: "labs.csv", withdrawn: 1, inForce: 50 }], settings)).toEqual({
      rejects: [{ file: "labs.csv", dataRows: 3, rejected: 2, held: 0 }],
      withdrawals: [{ file: "labs.csv", withdrawn: 1, inForce: 50 }],
      limits: { rejectShare: 0.5, rejectRows: 2, withdrawShare: 0 },
    })
  })
})

describe("merges that cannot be followed are counted", () => {
  test.each([
    ["into a known patient", { A: "B" }, 0],
    ["a chain", { A: "B", B: "C" }, 0],
    ["into oneself", { A: "A" }, 1],
    ["into nobody", { A: "X" }, 1],
    ["a chain that ends at nobody breaks at its end", { A: "B", B: "X" }, 1],
    ["a circle of two", { A: "B", B: "A" }, 2],
    ["a chain that leads into a circle", { A: "B", B: "C", C: "B" }, 2],
  ])("%s", (_, merges, broken) => {
    const known = new Set(["A", "B", "C"])
    expect(countBrokenMerges(new Map(Object.entries(merges)), (patient) => known.has(patient))).toBe(broken)
  })
})

describe("everything is accounted for", () => {
  const whole = { dataRows: 21, added: 1, changed: 2, unchanged: 3, withdrawn: 4, held: 5, rejected: 6 }

  test("a sum that is right passes", () => {
    expect(() => assertAccounted(report("labs.csv", whole))).not.toThrow()
  })

  test.each(Object.keys(whole))("one row too many in %s stops the import", (name) => {
    const wrong = { ...whole, [name]: whole.dataRows + 1 }
    expect(() => assertAccounted(report("labs.csv", wrong))).toThrow("labs.csv")
  })
})

describe("the report for a person", () => {
  const readings = report("readings.csv", {
    ...{ dataRows: 30, added: 8, rejected: 22 },
    notes: FileNotes.parse({ unknownColumns: ["cuff"], unlistedLoinc: [{ code: "2777-1", rows: 3 }] }),
  })
  const outcome = {
    ...{ importId: 7, files: [readings], ignored: ["notes.txt"], releasedRejects: 1 },
    firstProblems: [
      { file: "readings.csv", line: 4, column: "systolic", message: "must be from 50 to 300 mmHg" },
    ],
    question: questionOf([readings], [], defaultSettings),
  }

  test("shows the counts, the reasons and what is worth telling", () => {
    const text = importReport({ ...outcome, status: "done" })

    expect(text).toContain("Import 7 is stored.")
    expect(text).toMatch(/readings\.csv +30 +8 +0 +0 +0 +0 +22/)
    expect(text).toContain("line 4: systolic must be from 50 to 300 mmHg")
    expect(text).toContain("and 21 rows more rejected")
    expect(text).toContain("columns left out: cuff")
    expect(text).toContain("2777-1 (3)")
    expect(text).toContain("notes.txt")
    expect(text).toContain("1 row held by earlier imports now rejected")
  })

  test("an import that asks says why and how to go on", () => {
    const text = importReport({ ...outcome, status: "asks" })

    expect(text).toContain("Import 7 has stored nothing yet")
    expect(text).toContain(
      "readings.csv: of 30 rows, 22 rejected and 0 held (asked above 5% and from 20 rows)",
    )
    expect(text).toContain("--accept")
  })

  test("a dry run says so", () => {
    expect(importReport({ ...outcome, status: "dry run" })).toContain("Dry run: nothing was stored")
  })
})
