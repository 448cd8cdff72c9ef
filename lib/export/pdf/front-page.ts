import { changeTitle } from "../../figures/change-title"
import { rateLabel } from "../../figures/measure-figure"
import type { MonthReport } from "../../figures/month-report"
import { reportStanding } from "../../figures/report-standing"
import { withSettings } from "../../domain/setting-words"
import { dietSodium } from "../../measures/diet-sodium"
import { count, milligrams, month, percentInterval } from "../../speech/format"
import { adorn, awaitPage, contentWidth, ink, paper, rule, say, sayAt, type Sheet } from "./sheet"

type Row = { name: string; goTo: string; value: string; interval: string; change: string }

/** Clinic, month and day; the panel; and every measure with its rate and the page it stands on. */
export function setFrontPage(sheet: Sheet, report: MonthReport): void {
  say(sheet, report.clinicName, { font: "sansBold", size: 10.5, colour: ink.accent, after: 4 })
  say(sheet, month(report.month), { tag: "H1", font: "serifBold", size: 30, gap: 0, after: 4 })
  for (const words of reportStanding(report)) say(sheet, words, { colour: ink.soft, size: 10 })
  sheet.y += 10
  setPanel(sheet, report)
  sheet.y += 6
  setHead(sheet)
  for (const theme of report.themes) {
    say(sheet, theme.title, { tag: "H2", font: "serifBold", size: 12, gap: 0, after: 3 })
    rule(sheet, ink.ink)
    sheet.y += 3
    for (const row of rowsOf(theme)) setRow(sheet, row)
    sheet.y += 6
  }
  say(sheet, "Appendix", { tag: "H2", font: "serifBold", size: 12, gap: 0, after: 3 })
  rule(sheet, ink.ink)
  sheet.y += 3
  for (const [name, goTo] of appendix) setRow(sheet, { name, goTo, value: "", interval: "", change: "" })
}

const appendix = [
  ["How to read this", "how-to-read"],
  ["Definitions and sources", "definitions"],
  ["Settings in force", "settings"],
] as const

/** The heads of the columns, once for all themes. */
function setHead(sheet: Sheet): void {
  const at = { size: 7.5, gap: 0, colour: ink.soft } as const
  sayAt(sheet, "rate", sheet.y, { ...at, x: 246, width: 56, align: "right" })
  sayAt(sheet, "95% interval", sheet.y, { ...at, x: 308, width: 66 })
  sayAt(sheet, "since the month before", sheet.y, { ...at, x: 374, width: 110 })
  sayAt(sheet, "page", sheet.y, { ...at, x: 510, width: 29, align: "right" })
}

function setPanel(sheet: Sheet, { panel, settings }: MonthReport): void {
  const cells = [
    [panel.in_panel, "in the panel"],
    [panel.ckd_before_replacement, "with CKD, not on dialysis or transplanted"],
    [panel.without_pressure, withSettings("with no pressure in {bp.windowMonths} months", settings)],
    [panel.without_urine_albumin, "with no urine albumin in 12 months"],
    [panel.without_diet_record, "with no diet record in 12 months"],
    [panel.kidney_unknown, "whose kidney status is not known"],
  ] as const
  const width = contentWidth / 3
  for (const row of [cells.slice(0, 3), cells.slice(3)]) {
    const heights = row.map(([number, words], place) => {
      const x = paper.left + place * width
      const first = sayAt(sheet, count(number), sheet.y, { x, width, font: "serifBold", size: 15, gap: 0 })
      const beneath = { x, width: width - 14, size: 8.5, colour: ink.soft, gap: 0 }
      return first + sayAt(sheet, words, sheet.y + first, beneath)
    })
    sheet.y += Math.max(...heights) + 6
  }
}

function rowsOf(theme: MonthReport["themes"][number]): Row[] {
  const diet = theme.diet ? [dietRow(theme.diet)] : []
  return [
    ...diet,
    ...theme.measures.map(({ figure }) => ({
      name: figure.measure.name,
      goTo: figure.measure.id,
      value: rateLabel(figure.rate),
      interval: figure.rate.interval === null ? "" : percentInterval(figure.rate.interval),
      change: changeTitle(figure),
    })),
  ]
}

function dietRow({ headline }: NonNullable<MonthReport["themes"][number]["diet"]>): Row {
  const { meanMg, interval } = headline.now
  return {
    ...{ name: dietSodium.name, goTo: dietSodium.id, change: headline.name },
    value: meanMg === null ? "no record" : milligrams(meanMg),
    interval:
      interval === null
        ? ""
        : `${milligrams(interval.low)} to ${milligrams(interval.high)}`.replaceAll("\u00a0mg", ""),
  }
}

function setRow(sheet: Sheet, row: Row): void {
  const { y } = sheet
  const at = { size: 9, gap: 0 } as const
  sayAt(sheet, row.name, y, { ...at, x: paper.left, width: 186, goTo: row.goTo })
  if (row.value === "") return endRow(sheet, row.goTo)
  sayAt(sheet, row.value, y, { ...at, x: 246, width: 56, font: "sansBold", align: "right" })
  sayAt(sheet, row.interval, y, { ...at, x: 308, width: 66, colour: ink.soft })
  sayAt(sheet, row.change, y, { ...at, x: 374, width: 150, colour: ink.soft, size: 8.5 })
  endRow(sheet, row.goTo)
}

function endRow(sheet: Sheet, place: string): void {
  awaitPage(sheet, place)
  sheet.y += 13
  const line = sheet.y - 1.2
  adorn(sheet, (doc) =>
    doc.moveTo(paper.left, line).lineTo(paper.right, line).lineWidth(0.3).strokeColor(ink.rule).stroke(),
  )
}
