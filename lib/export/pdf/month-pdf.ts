import type { MonthReport } from "../../figures/month-report"
import { dietSodium } from "../../measures/diet-sodium"
import { dayInFull, month } from "../../speech/format"
import { setAppendix } from "./appendix"
import { setContents } from "./contents"
import { dietPart } from "./diet-part"
import { setFrontPage } from "./front-page"
import { measurePart } from "./measure-part"
import {
  closeSheet,
  composed,
  ink,
  keepRoom,
  markPlace,
  namePages,
  openSheet,
  paper,
  rule,
  say,
  turnPage,
  type Sheet,
} from "./sheet"

/** The head of a theme, which stays with what comes first under it. */
const themeHeight = 44

/** The month as a PDF for the meeting: counts of people, and nobody by name. */
export async function monthPdf(report: MonthReport): Promise<Uint8Array> {
  const sheet = openSheet({
    title: `${report.clinicName}, ${month(report.month)}`,
    author: report.clinicName,
    subject: `The measures of the clinic as they stand at ${dayInFull(report.asOf)}`,
    madeAt: new Date(report.builtAt),
  })
  setMonth(sheet, report)
  namePages(sheet)
  setOutline(sheet, report)
  numberPages(sheet, report)
  return closeSheet(sheet)
}

function setMonth(sheet: Sheet, report: MonthReport): void {
  setFrontPage(sheet, report)
  turnPage(sheet)
  setContents(sheet, report)
  turnPage(sheet)
  for (const theme of report.themes) {
    const parts = [
      ...(theme.diet ? [dietPart(sheet, theme.diet, report)] : []),
      ...theme.measures.map((measure) => measurePart(sheet, measure, report)),
    ]
    keepRoom(sheet, themeHeight + (parts[0]?.height ?? 0))
    markPlace(sheet, `theme ${theme.title}`)
    say(sheet, theme.title, { tag: "H2", font: "serifBold", size: 17, gap: 0, after: 5 })
    rule(sheet, ink.ink)
    sheet.y += 10
    for (const part of parts) part.set()
  }
  setAppendix(sheet, report)
}

/** Bookmarks: the themes with their measures, then the appendix. An item leads to the page that is switched to. */
function setOutline({ doc, pages }: Sheet, report: MonthReport): void {
  const add = (to: PDFKit.PDFOutline, title: string, place: string) => {
    doc.switchToPage((pages.get(place) ?? 1) - 1)
    return to.addItem(title)
  }
  add(doc.outline, "All measures", "contents")
  for (const theme of report.themes) {
    const part = add(doc.outline, theme.title, `theme ${theme.title}`)
    if (theme.diet) add(part, dietSodium.name, dietSodium.id)
    for (const { figure } of theme.measures) add(part, figure.measure.name, figure.measure.id)
  }
  add(doc.outline, "How to read this", "how-to-read")
  add(doc.outline, "Who and where", "groups")
  add(doc.outline, "Definitions and sources", "definitions")
  add(doc.outline, "Settings in force", "settings")
}

/** "3 of 14" under each page; clinic and month over each but the first. */
function numberPages(sheet: Sheet, report: MonthReport): void {
  const { doc, pageCount } = sheet
  const width = paper.right - paper.left
  for (let page = 0; page < pageCount; page += 1) {
    doc.switchToPage(page)
    doc.markContent("Artifact", { type: "Pagination" })
    doc.font("sans").fontSize(8.5).fillColor(ink.soft)
    if (page > 0) {
      doc.text(composed(report.clinicName), paper.left, 40, { width, lineBreak: false })
      doc.text(month(report.month), paper.left, 40, { width, align: "right", lineBreak: false })
      doc.moveTo(paper.left, 54).lineTo(paper.right, 54).lineWidth(0.4).strokeColor(ink.rule).stroke()
    }
    doc.text("Clinicians decide; local policy applies.", paper.left, 800, { width, lineBreak: false })
    doc.text(`${page + 1} of ${pageCount}`, paper.left, 800, { width, align: "right", lineBreak: false })
    doc.endMarkedContent()
  }
}
