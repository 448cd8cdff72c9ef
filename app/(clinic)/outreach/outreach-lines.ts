import type { Settings } from "../../../lib/domain/settings"
import type { OutreachLine } from "../../../lib/export/outreach-files"
import { attemptsWords, hereWords } from "../../../lib/speech/outreach-row-words"
import { reasonWords } from "../../../lib/speech/outreach-words"
import type { RowOfList } from "./rows-with-people"

/** The rows of a list as lines of a file, in the words of the screen. */
export function outreachLines(rows: readonly RowOfList[], settings: Settings): OutreachLine[] {
  return rows.map(({ one, person, reasons, facts }) => ({
    ...{ place: one.place, howSoon: one.tier, patientId: one.patientId },
    name: [person?.family_name, person?.given_name].filter(Boolean).join(", ") || null,
    ...{ phone: person?.phone ?? null, email: person?.email ?? null },
    ...{ preferredWay: person?.preferred_contact ?? null, language: person?.language ?? null },
    interpreter: person?.interpreter_needed ?? false,
    reasons: reasons.map((held) => reasonWords(held, settings)),
    whyHere: one.case.closed === null ? hereWords(facts) : "",
    tried: attemptsWords(one.tried),
    ...{ assignedTo: one.assigned_name, nextVisitOn: one.next_visit_on },
    ...{ clinician: person?.clinician_name ?? null, site: person?.site ?? null },
  }))
}
