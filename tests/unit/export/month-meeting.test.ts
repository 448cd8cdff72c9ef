import { readSheet } from "read-excel-file/node"
import { describe, expect, test } from "vitest"
import { lastDayOfMonth } from "../../../lib/domain/plain-date"
import { monthXlsx } from "../../../lib/export/xlsx/month-xlsx"
import { monthPdf } from "../../../lib/export/pdf/month-pdf"
import { measures } from "../../../lib/measures/index"
import type { MonthReport } from "../../../lib/figures/month-report"
import type { StandingChange } from "../../../lib/questions/standing-changes"
import { octoberRecord } from "../../fixtures/month-record"
import { readPdf } from "../../helpers/pdf-text"
import { reportOf } from "../../helpers/report-rows"

const counts = { excluded: 2, unknown: 5, met: 20, exception: 3, not_met: 10 }

// 24 complete months, November 2024 to October 2026.
const asOfs = Array.from({ length: 24 }, (_, place) => {
  const month = place + 10
  return lastDayOfMonth(`${2024 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}`)
})

/** 40, 50 or 60 of 100 at target by turns, and 75 in every month from February 2026. */
const inMonth = asOfs.map((as_of, place) => {
  const met = place < 15 ? 40 + (place % 3) * 10 : 75
  return { measure_id: "bp-at-target", as_of, met, not_met: 100 - met, unknown: 0 }
})

const today = [{ measure_id: "bp-at-target", population: 40, ...counts, met: 21, not_met: 9 }]
const of = { measure_id: "bp-at-target" } as const
const moves: StandingChange[] = [
  { ...of, earlier: "met", later: "met", change: null, cause: null, people: 17 },
  { ...of, earlier: "not met", later: "met", change: "gained", cause: "news", people: 3 },
  { ...of, earlier: "met", later: "unknown", change: "lost", cause: "time", people: 1 },
  { ...of, earlier: "not met", later: "not met", change: null, cause: null, people: 10 },
  { ...of, earlier: "unknown", later: "unknown", change: null, cause: null, people: 4 },
]
const closed = { isReproduced: true, isOfTheseDefinitions: true }
const report = reportOf(counts, { inMonth, today, moves, record: octoberRecord }, { asOfs, closed })
const pagesOf = async (of: MonthReport) => (await readPdf(await monthPdf(of))).pages

describe("what a meeting needs in the documents of a month", { timeout: 60_000 }, () => {
  test("the front page says who closed the month, what comes first, and what is open or decided", async () => {
    const [front = ""] = await pagesOf(report)

    expect(front).toContain("Closed by Ruth Alder, 5 November, 16:20: after the meeting")
    expect(front).toContain("Figures as known then, to the last digit.")
    // Each safety measure has 20 people; what is open is due after the day of the figures.
    expect(front).toMatch(
      /First this month 1 People to look at: 20 .*?\. 2 1 action of earlier months open, none overdue: Pressure at target\./,
    )
    expect(front).toContain("Open from earlier months Open Pressure at target: Lend home monitors")
    expect(front).toContain("Marta Łukasiewicz. Due 15 Nov 2026. Of September 2026, written by Ruth Alder.")
    expect(front).toContain("1 action of earlier months done since.")
    expect(front).toContain("Decided Mean daily sodium: Ask for a diet record at registration")
  })
  test("a measure has its signal in words, its notes, its log, and what it would be today", async () => {
    const text = (await pagesOf(report)).join(" ")

    // By hand: the baseline of 2025 has its median at 50; above it lie 60 in January 2026 and the nine months of 75.
    expect(text).toContain("Readings of the month only")
    expect(text).toContain(
      "Signal: 10 months in a row above the median of the baseline, Jan 2026 to Oct 2026. Higher is better here.",
    )
    expect(text).toContain("Baseline: Jan 2025 to Dec 2025, set by Ruth Alder on 3 Nov 2026: new cuffs.")
    expect(text).toContain("1 10 Mar 2026: Home readings count. Ruth Alder")
    expect(text).toContain("2 1 Jun 2026: Second site joined. All measures. Ruth Alder")
    expect(text).toContain("Done Check the cuffs")
    expect(text).toContain("Note: Two were exchanged")
    expect(text).toContain("1 earlier one is done or dropped.")
    expect(text).not.toContain("Write the letter")
    expect(text).toContain("Would be 60% today (21 of 35).")
  })

  test("a change stands in its parts, each with what it rests on", async () => {
    const text = (await pagesOf(report)).join(" ")

    // 3 of 35 gained and 1 of 35 lost, by hand: +8.6 and -2.9 points.
    expect(text).toContain("3 newly at target +8.6 3 by a fact dated since then")
    expect(text).toMatch(/1 slipped above it \u22122.[89] 1 as time passed/)
  })

  test("a month that nobody closed says so, and a running one says nothing of it", async () => {
    const open = reportOf(counts)
    const [complete = ""] = await pagesOf(open)
    const [running = ""] = await pagesOf({ ...reportOf(counts, {}, { isRunning: true }) })

    expect(complete).toContain("The month is not closed: facts that arrive later still change its figures.")
    expect(running).not.toContain("closed")
  })

  test("a workbook has the log and the notes on sheets of their own", async () => {
    const book = Buffer.from(await monthXlsx(report, null))
    const [, , heads = [], ...log] = await readSheet(book, "Decisions")
    const cell = (row: readonly unknown[] | undefined, name: string) => row?.[heads.indexOf(name)]
    const lent = log.find((row) => cell(row, "What") === "Lend home monitors")

    expect(log).toHaveLength(octoberRecord.actions.length)
    expect(cell(lent, "Measure")).toBe("Pressure at target")
    expect(cell(lent, "Who")).toBe("Marta Łukasiewicz")
    expect(cell(lent, "Due")).toEqual(new Date("2026-11-15T00:00:00Z"))
    expect(cell(lent, "State")).toBe("Open")
    const notes = await readSheet(book, "Notes")
    // One of a measure, and one of all that stands on each measure and on the diet.
    expect(notes).toHaveLength(3 + 1 + measures.length + 1)
  })

  test("a workbook has what is signalled, what comes first, and what a closed month would be today", async () => {
    const book = Buffer.from(await monthXlsx(report, null))
    const month = await readSheet(book, "Month")
    const [, , heads = [], ...months] = await readSheet(book, "Pressure at target")
    const row = month.find(([name]) => name === "Pressure at target")
    const last = months.find(([on]) => String(on) === String(new Date("2026-10-31T00:00:00Z")))

    expect(month[1]?.[0]).toContain("Closed by Ruth Alder, 5")
    expect(row).toContain("Would be 60% today (21 of 35)")
    expect(row?.some((cell) => String(cell).startsWith("Signal: 10"))).toBe(true)
    expect(month.some(([words]) => words === "First this month")).toBe(true)
    expect(last?.[heads.indexOf("Of the month only: met")]).toBe(75)
    expect(last?.[heads.indexOf("Judged by the limits")]).toBe("within")
  })
})
