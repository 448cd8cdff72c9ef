import writeXlsxFile from "write-excel-file/node"
import { reportedMeasures, type MonthReport } from "../../figures/month-report"
import { dietSheet } from "./diet-sheet"
import { measureSheet } from "./measure-sheet"
import { monthSheet } from "./month-sheet"
import { peopleSheets, type XlsxPeople } from "./people-sheets"
import { decisionsSheet, notesSheet } from "./record-sheets"
import type { XlsxSheet } from "./sheet"
import { definitionsSheet, settingsSheet } from "./term-sheets"

/** The most letters the name of a sheet has, and what it cannot hold. */
const longestName = 31
const notInNames = /[[\]:*?\\]/g

/** The month as a workbook: the month, each measure, what was decided, what is set and how it is decided; lists only where people are given. */
export async function monthXlsx(report: MonthReport, people: XlsxPeople | null): Promise<Uint8Array> {
  const sheets = named([
    monthSheet(report),
    ...report.themes.flatMap((theme) => (theme.diet ? [dietSheet(report, theme.diet)] : [])),
    ...reportedMeasures(report).map((measure) => measureSheet(report, measure)),
    decisionsSheet(report),
    notesSheet(report),
    settingsSheet(report),
    definitionsSheet(report),
    ...(people === null ? [] : peopleSheets(report, people)),
  ])
  return await writeXlsxFile(
    sheets.map((sheet) => ({
      sheet: sheet.name,
      data: sheet.rows,
      columns: sheet.widths.map((width) => ({ width })),
      stickyRowsCount: sheet.frozen,
    })),
  ).toBuffer()
}

/** Names that a workbook takes: without its signs, short, and each once. */
function named(sheets: readonly XlsxSheet[]): XlsxSheet[] {
  const taken = new Set<string>()
  return sheets.map((sheet) => {
    const plain = sheet.name.replaceAll("/", "\u2044").replace(notInNames, " ")
    let name = shortened(plain)
    for (let again = 2; taken.has(name.toLowerCase()); again += 1)
      name = `${plain.slice(0, longestName - 3).trim()} ${again}`
    taken.add(name.toLowerCase())
    return { ...sheet, name }
  })
}

/** Cut between words. */
function shortened(name: string): string {
  if (name.length <= longestName) return name
  const cut = name.slice(0, longestName + 1)
  return cut.slice(0, Math.max(cut.lastIndexOf(" "), 1)).trim()
}
