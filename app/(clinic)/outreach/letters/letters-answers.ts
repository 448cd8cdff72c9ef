import "server-only"
import { templatesInForce } from "../../../../lib/domain/letter-template"
import { plainToday } from "../../../../lib/domain/plain-date"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { chooseTemplate, type ChosenTemplate } from "../../../../lib/letters/choose-template"
import { fillLetter, type FilledLetter } from "../../../../lib/letters/fill-letter"
import { attemptsRule } from "../../../../lib/outreach/attempts-rule"
import { store } from "../../../../lib/store/client"
import { countDueLetters, listDueLetters } from "../../../../lib/store/due-letters"
import { listLetterTemplates } from "../../../../lib/store/letter-templates"
import { callerScope } from "../../../_http/ask"
import { clinicTimeZone } from "../../time-zone"
import { rowsWithPeople, type RowOfList } from "../rows-with-people"

/** Somebody for whom a letter is next, with the letter. */
export type DueLetter = {
  row: RowOfList
  name: string | null
  language: string | null
  chosen: ChosenTemplate
  letter: FilledLetter
}

type Asked = {
  snapshot: SnapshotMeta
  now: Date
  after?: number
  limit: number
  /** The cases that are asked for; whoever of them no letter is next for is left out. */
  ids?: readonly number[]
}

/** The letters that are next, in the order of the list, and how many there are in all. */
export async function dueLetters(asked: Asked) {
  const { snapshot, now, after = 0, limit, ids } = asked
  const [scope, timeZone] = await Promise.all([callerScope(), clinicTimeZone()])
  const on = plainToday(now, timeZone)
  const which = { scope, on, rule: attemptsRule(snapshot.settings), after, ...(ids ? { ids } : {}) }
  const [cases, counts, written] = await Promise.all([
    listDueLetters(store(), { ...which, limit }),
    countDueLetters(store(), which),
    listLetterTemplates(store()),
  ])
  const templates = templatesInForce(written)
  const rows = await rowsWithPeople(cases, snapshot)
  const letters = rows.flatMap((row): DueLetter[] => {
    const { person, one } = row
    // Nobody writes to somebody of whom the figures know nothing.
    if (person === null) return []
    const name = [person.given_name, person.family_name].filter(Boolean).join(" ") || null
    const { language } = person
    const chosen = chooseTemplate(templates, language)
    const facts = {
      ...{ name, clinic: snapshot.clinicName, clinician: person.clinician_name, today: on },
      ...{ nextVisitOn: one.next_visit_on, reasons: row.reasons },
    }
    return [{ row, name, language, chosen, letter: fillLetter(chosen.template, facts, snapshot.settings) }]
  })
  return { on, letters, templates, ...counts }
}

export type DueLetters = Awaited<ReturnType<typeof dueLetters>>
