import { changeTitle } from "../../figures/change-title"
import { fewestForMean, type DietPoint } from "../../figures/diet-figure"
import { fewestForRate, rateLabel } from "../../figures/measure-figure"
import type { MonthReport } from "../../figures/month-report"
import { dietSodium } from "../../measures/diet-sodium"
import type { Rate } from "../../statistics/rate"
import { counted, milligrams, percentInterval } from "../../speech/format"
import { adorn, awaitPage, ink, markPlace, paper, rule, say, sayAt, type Sheet } from "./sheet"

type Row = { name: string; goTo: string; value: string; interval: string; change: string }

/** Every measure with its rate and the page it stands on. */
export function setContents(sheet: Sheet, report: MonthReport): void {
  markPlace(sheet, "contents")
  say(sheet, "All measures", { tag: "H2", font: "serifBold", size: 17, gap: 0, after: 5 })
  rule(sheet, ink.ink)
  sheet.y += 10
  setHead(sheet)
  for (const theme of report.themes) {
    say(sheet, theme.title, { tag: "H3", font: "serifBold", size: 12, gap: 0, after: 3 })
    rule(sheet, ink.ink)
    sheet.y += 3
    for (const row of rowsOf(theme)) setRow(sheet, row)
    sheet.y += 8
  }
  say(sheet, "Appendix", { tag: "H3", font: "serifBold", size: 12, gap: 0, after: 3 })
  rule(sheet, ink.ink)
  sheet.y += 3
  for (const [name, goTo] of appendix) setRow(sheet, { name, goTo, value: "", interval: "", change: "" })
}

const appendix = [
  ["How to read this", "how-to-read"],
  ["Who and where", "groups"],
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

function rowsOf(theme: MonthReport["themes"][number]): Row[] {
  const diet = theme.diet ? [dietRow(theme.diet)] : []
  return [
    ...diet,
    ...theme.measures.map(({ figure }) => ({
      name: figure.measure.name,
      goTo: figure.measure.id,
      value: rateLabel(figure.rate),
      interval: besideRate(figure.rate),
      change: changeTitle(figure),
    })),
  ]
}

function dietRow({ headline }: NonNullable<MonthReport["themes"][number]["diet"]>): Row {
  const { meanMg } = headline.now
  return {
    ...{ name: dietSodium.name, goTo: dietSodium.id, change: headline.name },
    value: meanMg === null ? "no record" : milligrams(meanMg),
    interval: besideMean(headline.now),
  }
}

/** The interval of a rate, with its sign where a count stands in place of the percentage. */
function besideRate({ interval, total }: Rate): string {
  if (interval === null) return ""
  return total < fewestForRate ? `${percentInterval(interval)}%` : percentInterval(interval)
}

/** The interval of a mean; of so few that no mean of theirs is drawn, their number. */
function besideMean({ n, meanMg, interval }: DietPoint): string {
  if (meanMg !== null && n < fewestForMean) return `in ${counted(n, "person", "people")}`
  if (interval === null) return ""
  return `${milligrams(interval.low)} to ${milligrams(interval.high)}`.replaceAll("\u00a0mg", "")
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
