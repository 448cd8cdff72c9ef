import type { Settings } from "../../../../lib/domain/settings"
import { inClinicsOrder } from "../../../../lib/outreach/between-two"
import { visitsCsv } from "../../../../lib/export/visits-csv"
import { actorOf, endsWithOf, reasonWords } from "../../../../lib/speech/outreach-words"
import { isUrgent, type VisitRow, type VisitSheet } from "./visit-sheets"
import { closedWords, urgentWords } from "./visit-words"

/** The sheets of a day as one CSV, in the order in which the screen has them and in its words. */
export function visitFile(of: { on: string; sheets: readonly VisitSheet[]; settings: Settings }): string {
  const { on, sheets, settings } = of
  const visits = sheets.flatMap((sheet) => sheet.rows.map((row) => visitOf(row, { sheet, settings })))
  return visitsCsv({ on, visits })
}

function visitOf(row: VisitRow, { sheet, settings }: { sheet: VisitSheet; settings: Settings }) {
  const held = row.known === null ? [] : inClinicsOrder(row.known.case.reasons, settings)
  return {
    ...row.visit,
    clinician: sheet.clinician,
    urgent: isUrgent(row) ? urgentWords(row, settings) : "",
    reasons: held.map((one) => ({
      words: reasonWords(one, settings),
      actor: actorOf(one),
      endsWith: endsWithOf(one),
    })),
    closed: closedWords(row),
  }
}
