import { readSheet } from "read-excel-file/node"
import { expect, test } from "vitest"
import { monthXlsx } from "../../../lib/export/xlsx/month-xlsx"
import { measures } from "../../../lib/measures/index"
import { reportOf } from "../../helpers/report-rows"

const counts = { excluded: 3, unknown: 22, met: 138, exception: 4, not_met: 52 }
const person = {
  ...{ patient_id: "p1", given_name: "+44", family_name: "=1+1", age_years: 61, site: "@north" },
  ...{ clinician_name: null, systolic: 138, diastolic: 86, bp_source: "home", bp_on: "2026-10-02" },
  ...{ egfr: 41.6, egfr_on: "2026-09-30", acr: 5, acr_comparator: "<", acr_on: "2026-09-30" },
  ...{ potassium: 4.8, potassium_on: "2026-09-30", sodium_mg: null, classes: ["ace"] },
  next_visit_on: null,
}
const [measure] = measures
if (!measure) throw new Error("there is a measure")
const standing = {
  measure_id: measure.id,
  patient_id: "p1",
  standing: "unknown",
  reasons: ["no reading"],
} as const

const workbook = async (people: Parameters<typeof monthXlsx>[1]) =>
  Buffer.from(await monthXlsx(reportOf(counts), people))

test("a text that a spreadsheet would run stays text as it came, beside typed numbers and days", async () => {
  const book = await workbook({ people: [person], standings: [standing] })

  const [, , heads = [], row = []] = await readSheet(book, "People")
  const cell = (name: string) => row[heads.indexOf(name)]
  expect([cell("Family name"), cell("Given name"), cell("Site")]).toEqual(["=1+1", "+44", "@north"])
  expect([cell("Systolic, mmHg"), cell("Potassium, mmol/L")]).toEqual([138, 4.8])
  expect(cell("Pressure on")).toEqual(new Date("2026-10-02T00:00:00Z"))
  expect(cell("Urine albumin, mg/g")).toBe("<5")
  expect((await readSheet(book, "Attention"))[3]).toEqual(expect.arrayContaining(["=1+1", "No reading"]))
})

test("a workbook without people has no sheet of them", async () => {
  await expect(readSheet(await workbook(null), "People")).rejects.toThrow(/not found/i)
})

test("a rate stands beside its counts, and below 20 people the counts alone", async () => {
  const rateOf = async (report: ReturnType<typeof reportOf>) => {
    const rows = await readSheet(Buffer.from(await monthXlsx(report, null)), measure.name)
    return [rows[2]?.indexOf("Rate"), rows[2]?.indexOf("Met")].map((place) => rows[5]?.[place ?? -1])
  }

  expect(measure.direction).toBe("up")
  // 138 of 138 + 52 + 22: the worked example of lib/statistics/rate.ts, by hand.
  expect(await rateOf(reportOf(counts))).toEqual([138 / 212, 138])
  expect(await rateOf(reportOf({ ...counts, unknown: 1, met: 9, not_met: 9 }))).toEqual([null, 9])
})
