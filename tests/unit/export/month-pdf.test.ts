import { describe, expect, test } from "vitest"
import { monthPdf } from "../../../lib/export/pdf/month-pdf"
import { measures } from "../../../lib/measures/index"
import { readPdf } from "../../helpers/pdf-text"
import { reportOf } from "../../helpers/report-rows"

const nobody = { excluded: 0, unknown: 0, met: 0, exception: 0, not_met: 0 }
const forty = { excluded: 2, unknown: 5, met: 20, exception: 3, not_met: 10 }

// Setting a document takes a second or two, more on a machine that is busy.
describe("the month as a PDF", { timeout: 60_000 }, () => {
  test("says the figures of every measure, with its source, and counts its pages", async () => {
    const read = await readPdf(await monthPdf(reportOf(forty)))
    const text = read.pages.join(" ")

    expect(read.title).toBe("Northgate kidney clinic, October 2026")
    expect(read.language).toBe("en")
    expect(text).toContain("20 of 35 people with CKD have their pressure at target.")
    // 20 / 35 with Wilson's interval, by hand: 57% (41 to 72); of the measured 20 / 30.
    expect(text).toContain("57% (41 to 72)")
    expect(text).toContain("67% of the measured")
    for (const [place, page] of read.pages.entries())
      expect(page).toContain(`${place + 1} of ${read.pages.length}`)
    for (const measure of measures) expect(text.split(measure.name).length).toBeGreaterThan(2)
    expect(text).toContain("doi:10.1161/HYP.0000000000000065")
    expect(read.bookmarks).toEqual([
      "All measures",
      ...["Pressure", "Protein and protection", "Diet", "Monitoring", "Safety"],
      ...["How to read this", "Who and where", "Definitions and sources", "Settings in force"],
    ])
  })

  test("names in its contents the page on which each measure stands", async () => {
    const report = reportOf(forty)
    const { pages } = await readPdf(await monthPdf(report))
    const [, contents = "", ...others] = pages
    const numbers = /Settings in force ([\d ]+) Northgate/.exec(contents)?.[1]?.split(" ").map(Number) ?? []
    const names = report.themes.flatMap((theme) => [
      ...(theme.diet ? ["Mean daily sodium"] : []),
      ...theme.measures.map(({ figure }) => figure.measure.name),
    ])
    const pageOf = (name: string) => others.findIndex((page) => page.includes(name)) + 3

    expect(numbers.slice(0, names.length)).toEqual(names.map(pageOf))
    expect(numbers.at(-1)).toBe(pageOf("Settings in force"))
  })

  test("is whole for a clinic of nobody and of one person", async () => {
    const none = await readPdf(await monthPdf(reportOf(nobody)))
    const one = await readPdf(await monthPdf(reportOf({ ...nobody, met: 1 })))

    expect(none.pages.join(" ")).toContain("Pressure at target: no one to count.")
    expect(one.pages.join(" ")).toContain("Too few for a percentage")
    expect(one.pages.join(" ")).not.toContain("100% (")
    // 1 of 1 with Wilson's interval, by hand: 1 / (1 + 3.84) = 21% to 100%.
    expect(one.pages[1]).toContain("1 of 1 21 to 100%")
  })

  test("draws no line through the mean sodium of four people, and says of how many it is", async () => {
    const dietOf = async (n: number) => {
      const paired = { paired_n: 0, paired_change_mg: null, paired_sd_mg: null }
      const diet = ["2026-08-31", "2026-09-30", "2026-10-31"].map((as_of) => ({
        ...{ as_of, series: "counted days", n, mean_mg: 3100, sd_mg: 200, ...paired },
      }))
      return (await readPdf(await monthPdf(reportOf(forty, { diet })))).pages.join(" ")
    }
    const [four, five] = [await dietOf(4), await dietOf(5)]

    expect(four).toContain("No month has a record of 5 people or more, so no line is drawn.")
    expect(four).toContain("Mean daily sodium 3,100 mg in 4 people counted days")
    expect(four).not.toContain("Records of each month")
    expect(five).toContain("Records of each month")
    expect(five).not.toContain("so no line is drawn")
  })

  test("has the same bytes for the same figures", async () => {
    const [first, second] = [await monthPdf(reportOf(forty)), await monthPdf(reportOf(forty))]

    expect(Buffer.compare(Buffer.from(first), Buffer.from(second))).toBe(0)
  })

  test("carries every font it uses, cut to the letters that are used", async () => {
    const text = Buffer.from(await monthPdf(reportOf(forty))).toString("latin1")
    const fonts = [...text.matchAll(/\/FontName \/([A-Z]{6})\+(\S+)/g)].map((match) => match[2])

    expect(new Set(fonts)).toEqual(
      new Set([
        "SourceSans3-Regular",
        "SourceSans3-Semibold",
        "SourceSerif4-Regular",
        "SourceSerif4-Semibold",
      ]),
    )
    expect(text).not.toMatch(/\/BaseFont \/(Helvetica|Times|Courier)/)
  })

  test("writes names of Latin, Vietnamese, Greek and Cyrillic letters as they were typed", async () => {
    // In one document: letters that a font lacks all become the same sign, and only one of them would be read back.
    const names = "Łukasiewicz Nguyễn Ağaoğlu Ελένη Дарья"

    for (const clinicName of [names, names.normalize("NFD")]) {
      const { pages } = await readPdf(await monthPdf({ ...reportOf(nobody), clinicName }))

      expect(pages[0]).toContain(names)
      expect(pages[1]).toContain(names)
    }
  })

  test("says where it speaks of a part of the clinic", async () => {
    const part = await readPdf(await monthPdf({ ...reportOf(forty), isWholeClinic: false }))

    expect(part.pages[0]).toContain("Only the people whom the account that made this document may see.")
  })
})
