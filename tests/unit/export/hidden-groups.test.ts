import { readSheet } from "read-excel-file/node"
import { expect, test, vi } from "vitest"
import { monthBundle } from "../../../lib/export/fhir/month-bundle"
import { monthCsv } from "../../../lib/export/month-csv"
import { monthPdf } from "../../../lib/export/pdf/month-pdf"
import { monthXlsx } from "../../../lib/export/xlsx/month-xlsx"
import type { GroupCounts } from "../../../lib/questions/measure-groups"
import { readPdf } from "../../helpers/pdf-text"
import { reportOf } from "../../helpers/report-rows"

// Making a document takes a second or two, more on a machine that is busy.
vi.setConfig({ testTimeout: 60_000 })

const none = { excluded: 0, unknown: 0, exception: 0 }
const site = (name: string, met: number, not_met: number): GroupCounts => ({
  ...{ kind: "site", key: name, name, ...none, met, not_met },
})

// Five of the people at Ashgate are at target: it is hidden, and with it the next site with people, by name.
const sites = [site("Ashgate", 5, 30), site("Birchgate", 40, 27), site("Cedargate", 60, 13)]
const report = reportOf(
  { ...none, met: 105, not_met: 70 },
  { groupsByMeasure: new Map([["bp-at-target", sites]]) },
)

test("a PDF does not show a group of few people, nor the one it could be worked out from", async () => {
  const text = (await readPdf(await monthPdf(report))).pages.join(" ")

  // 60 of 73 with Wilson's interval, by hand: 82% (72 to 89).
  expect(text).toContain("Cedargate 82% (72 to 89) of 73; 2 groups not shown")
  expect(text).not.toMatch(/(Ash|Birch)gate/)
})

test("a workbook has no count of a hidden group", async () => {
  const rows = await readSheet(Buffer.from(await monthXlsx(report, null)), "Pressure at target")
  const cells = (name: string) => rows.find(([first]) => first === name)?.filter((cell) => cell !== null)

  expect(cells("Ashgate")).toEqual(["Ashgate", "not shown"])
  expect(cells("Birchgate")).toEqual(["Birchgate", "not shown"])
  expect(cells("Cedargate")).toContain(60)
})

test("a MeasureReport has a hidden group by name alone, and its lists of people are not divided", () => {
  const people = [{ measure_id: "bp-at-target", public_id: "a1", standing: "met" } as const]
  const reports = monthBundle(report, people)
    .entry.map(({ resource }) => resource)
    .filter((one) => one.resourceType === "MeasureReport" && one.id.startsWith("bp-at-target-"))
  const [summary, lists] = reports.map((one) =>
    "group" in one && one.resourceType === "MeasureReport" ? one : null,
  )
  const strata = summary?.group[0]?.stratifier?.[0]?.stratum ?? []

  expect(strata.slice(0, 2)).toEqual([{ value: { text: "Ashgate" } }, { value: { text: "Birchgate" } }])
  expect(strata[2]?.population?.map(({ count }) => count)).toContain(60)
  expect(lists?.type).toBe("subject-list")
  expect(JSON.stringify(lists)).not.toContain("stratifier")
})

test("a CSV has the clinic as a whole and no group", () => {
  expect(monthCsv(report)).not.toMatch(/(Ash|Birch|Cedar)gate/)
})
