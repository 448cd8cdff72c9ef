import writeXlsxFile from "write-excel-file/node"
import { toCsv } from "./csv"
import { day, head, prose, text, whole, type XlsxCell } from "./xlsx/cells"

/** One person of the list of people to contact as a line of a file. */
export type OutreachLine = {
  /** Where they stand among all; empty of who is on no list of people to contact. */
  readonly place: number | null
  readonly howSoon: string | null
  readonly patientId: string
  readonly name: string | null
  readonly phone: string | null
  readonly email: string | null
  readonly preferredWay: string | null
  readonly language: string | null
  readonly interpreter: boolean
  readonly reasons: readonly string[]
  readonly whyHere: string
  readonly tried: string
  readonly assignedTo: string | null
  readonly nextVisitOn: string | null
  readonly clinician: string | null
  readonly site: string | null
}

const columns = [
  ...["place", "how_soon", "patient_id", "name", "phone", "email", "preferred_way", "language"],
  ...["interpreter", "reasons", "why_here", "tried", "assigned_to", "next_visit", "clinician", "site"],
] as const

const widths = [7, 9, 14, 24, 16, 26, 13, 10, 11, 44, 44, 40, 20, 12, 22, 14] as const

/** The list of people to contact as CSV, one a line in its order. */
export function outreachCsv(lines: readonly OutreachLine[]): string {
  return toCsv(
    columns,
    lines.map((one) => [
      ...[one.place, one.howSoon, one.patientId, one.name, one.phone, one.email, one.preferredWay],
      ...[one.language, one.interpreter, one.reasons.join("; "), one.whyHere, one.tried, one.assignedTo],
      ...[one.nextVisitOn, one.clinician, one.site],
    ]),
  )
}

/** The same as a workbook of one sheet, in which every text is a text whatever it begins with. */
export async function outreachXlsx(lines: readonly OutreachLine[]): Promise<Uint8Array> {
  const data = [columns.map((name) => head(name)), ...lines.map(cellsOf)]
  return await writeXlsxFile(data, {
    sheet: "People to contact",
    columns: widths.map((width) => ({ width })),
    stickyRowsCount: 1,
  }).toBuffer()
}

function cellsOf(one: OutreachLine): XlsxCell[] {
  return [
    ...[whole(one.place), text(one.howSoon), text(one.patientId), text(one.name)],
    ...[text(one.phone), text(one.email), text(one.preferredWay), text(one.language)],
    ...[text(one.interpreter ? "yes" : "no"), prose(one.reasons.join("\n")), prose(one.whyHere)],
    ...[prose(one.tried), text(one.assignedTo), day(one.nextVisitOn), text(one.clinician), text(one.site)],
  ]
}
