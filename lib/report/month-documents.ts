import { monthBundle } from "../export/fhir/month-bundle"
import { monthCsv } from "../export/month-csv"
import { monthPdf } from "../export/pdf/month-pdf"
import { monthXlsx } from "../export/xlsx/month-xlsx"
import type { MonthReport } from "../figures/month-report"
import type { ReportPeople } from "./ask-report-people"

export const documentFormats = ["pdf", "xlsx", "csv", "fhir"] as const

export type DocumentFormat = (typeof documentFormats)[number]

/** The formats that can hold lists of people; the others speak in counts alone. */
const formatsOfPeople: readonly DocumentFormat[] = ["xlsx", "fhir"]

export type MonthDocument = { fileName: string; mediaType: string; bytes: Uint8Array }

export function isDocumentFormat(word: unknown): word is DocumentFormat {
  return documentFormats.some((format) => format === word)
}

export function canHoldPeople(format: DocumentFormat): boolean {
  return formatsOfPeople.includes(format)
}

/** A month as one file; `people` is null where it is to hold counts alone. The file's name says nothing about anybody. */
export async function monthDocument(
  report: MonthReport,
  { format, people }: { format: DocumentFormat; people: ReportPeople | null },
): Promise<MonthDocument> {
  const name = `month-${report.month}${people === null ? "" : "-people"}`
  switch (format) {
    case "pdf":
      return { fileName: `${name}.pdf`, mediaType: "application/pdf", bytes: await monthPdf(report) }
    case "xlsx":
      return {
        fileName: `${name}.xlsx`,
        mediaType: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        bytes: await monthXlsx(report, people),
      }
    case "csv":
      return {
        fileName: `${name}.csv`,
        mediaType: "text/csv; charset=utf-8",
        bytes: encoded(monthCsv(report)),
      }
    case "fhir":
      return {
        fileName: `${name}.fhir.json`,
        mediaType: "application/fhir+json; charset=utf-8",
        bytes: encoded(`${JSON.stringify(monthBundle(report, people?.standings ?? null), null, 1)}\n`),
      }
  }
}

function encoded(text: string): Uint8Array {
  return new TextEncoder().encode(text)
}
