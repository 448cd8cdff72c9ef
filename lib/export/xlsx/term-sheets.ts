import { reportedMeasures, type MonthReport } from "../../figures/month-report"
import { dietDefinition, measureDefinition, type DefinitionRow } from "../../figures/reported-definitions"
import { reportedSettings } from "../../figures/reported-settings"
import { dietSodium } from "../../measures/diet-sodium"
import { sentenceCase } from "../../speech/format"
import { prose } from "./cells"
import { tableSheet, type XlsxSheet } from "./sheet"

type Term = { of: string; term: string; said: string }

/** What the clinic set, as far as it bears on figures. */
export function settingsSheet(report: MonthReport): XlsxSheet {
  const rows = reportedSettings(report.settings).flatMap(({ title, rows: own }) => termsOf(title, own))
  return termSheet(report, { name: "Settings", heads: ["Part", "Setting", "Set to"], rows })
}

/** How each measure is decided, with its source. */
export function definitionsSheet(report: MonthReport): XlsxSheet {
  const measures = reportedMeasures(report).flatMap(({ figure: { measure } }) =>
    termsOf(measure.name, [["Question", measure.question], ...measureDefinition(measure)]),
  )
  const diet = termsOf(dietSodium.name, [["Question", dietSodium.question], ...dietDefinition()])
  return termSheet(report, {
    name: "Definitions",
    heads: ["Measure", "Term", "Definition"],
    rows: [...measures, ...diet],
  })
}

function termsOf(of: string, rows: readonly DefinitionRow[]): Term[] {
  return rows.map(([term, said]) => ({ of, term, said: sentenceCase(said) }))
}

function termSheet(
  report: MonthReport,
  sheet: { name: string; heads: [string, string, string]; rows: readonly Term[] },
): XlsxSheet {
  const [of, term, said] = sheet.heads
  return tableSheet(report, {
    ...{ name: sheet.name, title: sheet.name, rows: sheet.rows },
    columns: [
      { head: of, width: 36, cell: (row: Term) => prose(row.of) },
      { head: term, width: 40, cell: (row: Term) => prose(row.term) },
      { head: said, width: 90, cell: (row: Term) => prose(row.said) },
    ],
  })
}
