import { parse } from "csv-parse/sync"
import { readSheet } from "read-excel-file/node"
import { expect, test, vi } from "vitest"
import { z } from "zod"
import { monthBundle } from "../../../lib/export/fhir/month-bundle"
import { monthCsv } from "../../../lib/export/month-csv"
import { monthXlsx } from "../../../lib/export/xlsx/month-xlsx"
import { faultsOf } from "../../helpers/fhir-validator"
import { reportOf } from "../../helpers/report-rows"

// Making a document takes a second or two, more on a machine that is busy.
vi.setConfig({ testTimeout: 60_000 })

const whole = reportOf({ excluded: 2, unknown: 5, met: 20, exception: 3, not_met: 10 })
const part = { ...whole, isWholeClinic: false }
const words = "Only the people whom the account that made this document may see."

test("every row of a CSV says whether it speaks of the whole clinic", () => {
  const said = (csv: string) =>
    z.array(z.looseObject({ is_whole_clinic: z.string() })).parse(parse(csv, { columns: true }))

  expect(new Set(said(monthCsv(whole)).map((row) => row.is_whole_clinic))).toEqual(new Set(["true"]))
  expect(new Set(said(monthCsv(part)).map((row) => row.is_whole_clinic))).toEqual(new Set(["false"]))
})

test("every MeasureReport of a part is limited to a group, in words, and stays valid R4", () => {
  const reportsOf = (bundle: ReturnType<typeof monthBundle>) =>
    bundle.entry.map(({ resource }) => resource).filter((one) => one.resourceType === "MeasureReport")

  for (const report of reportsOf(monthBundle(part, []))) {
    expect(report.subject).toEqual({ type: "Group", display: words })
    expect(report.text.div).toContain(words)
    expect(faultsOf(report)).toEqual([])
  }
  for (const report of reportsOf(monthBundle(whole, []))) {
    expect(report).not.toHaveProperty("subject")
    expect(report.text.div).not.toContain(words)
  }
})

test("every sheet of a workbook of a part says so above its table", async () => {
  const second = async (report: typeof part, name: string) =>
    String((await readSheet(Buffer.from(await monthXlsx(report, null)), name))[1]?.[0])

  for (const name of ["Month", "Pressure at target", "Decisions", "Settings"]) {
    expect(await second(part, name)).toContain(words)
    expect(await second(whole, name)).not.toContain(words)
  }
})
