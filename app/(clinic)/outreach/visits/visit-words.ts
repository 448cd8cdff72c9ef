import type { Settings } from "../../../../lib/domain/settings"
import { closingWords, spokenWords } from "../../../../lib/speech/outreach-row-words"
import type { VisitRow } from "./visit-sheets"

/** What is to be done about something urgent, and who has seen it: "A clinician decides today. Nobody has acknowledged it yet." */
export function urgentWords({ known }: VisitRow, settings: Settings): string {
  const isSeen = known !== null && known.case.acknowledgedBy !== null
  const seen = isSeen
    ? `Acknowledged by ${known.acknowledged_name ?? "an account that is gone"}.`
    : "Nobody has acknowledged it yet."
  return `${settings["outreach.urgentText"]} ${seen}`
}

/** How a case was closed whose reasons still hold; empty where none was. */
export function closedWords({ known }: VisitRow): string {
  const closed = known?.case.closed ?? null
  return closed === null || known?.case.reasons.length === 0 ? "" : closingWords(closed)
}

const keptWords = {
  "asked not to be contacted": "Asked not to be contacted; the visit stands.",
  left: "On record as having left; the booking stands.",
  died: "On record as having died; the booking stands.",
} as const

/** What to know of the person before the visit, a sentence each. */
export function toKnow(row: VisitRow): string[] {
  const { visit } = row
  const kept = visit.kept_from === null ? "" : keptWords[visit.kept_from]
  return [spokenWords(visit), kept, closedWords(row)].filter((words) => words !== "")
}
