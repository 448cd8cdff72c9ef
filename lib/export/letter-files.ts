import writeXlsxFile from "write-excel-file/node"
import { toCsv } from "./csv"
import { day, head, prose, text, type XlsxCell } from "./xlsx/cells"

/** A letter to one person as a line of a merge file; parts of a letter may run over several lines. */
export type LetterLine = {
  readonly patientId: string
  readonly name: string | null
  /** As on record, and that of the letter (BCP 47). */
  readonly language: string | null
  readonly letterLanguage: string
  readonly letterhead: string
  readonly subject: string
  readonly body: string
  readonly closing: string
  readonly reasons: readonly string[]
  readonly clinician: string | null
  readonly nextVisitOn: string | null
}

const columns = [
  ...["patient_id", "name", "preferred_language", "letter_language", "letterhead", "subject", "body"],
  ...["closing", "reasons", "clinician", "next_visit"],
] as const

const widths = [14, 24, 12, 12, 28, 30, 60, 28, 40, 24, 13] as const

/** Letters as CSV for a mail merge, one a line. */
export function lettersCsv(letters: readonly LetterLine[]): string {
  return toCsv(
    columns,
    letters.map((one) => [
      ...[one.patientId, one.name, one.language, one.letterLanguage],
      ...[one.letterhead, one.subject, one.body, one.closing],
      ...[one.reasons.join("\n"), one.clinician, one.nextVisitOn],
    ]),
  )
}

/** The same as a workbook of one sheet, in which every text is a text whatever it begins with. */
export async function lettersXlsx(letters: readonly LetterLine[]): Promise<Uint8Array> {
  const data = [columns.map((name) => head(name)), ...letters.map(cellsOf)]
  return await writeXlsxFile(data, {
    sheet: "Letters",
    columns: widths.map((width) => ({ width })),
    stickyRowsCount: 1,
  }).toBuffer()
}

function cellsOf(one: LetterLine): XlsxCell[] {
  return [
    ...[text(one.patientId), text(one.name), text(one.language), text(one.letterLanguage)],
    ...[prose(one.letterhead), prose(one.subject), prose(one.body), prose(one.closing)],
    ...[prose(one.reasons.join("\n")), text(one.clinician), day(one.nextVisitOn)],
  ]
}
