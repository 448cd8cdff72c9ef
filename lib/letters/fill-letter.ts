import type { LetterTemplate } from "../domain/letter-template"
import type { PlainDate } from "../domain/plain-date"
import type { Settings } from "../domain/settings"
import type { ReasonFact } from "../speech/outreach-words"
import type { LetterField } from "./letter-fields"
import { isEnglish, letterReasons } from "./letter-reasons"
import { piecesOf } from "./letter-pieces"
import { ownWordsOf, type WordId } from "./own-words"
import { programAbsent } from "./program-letter"
import { directionOf, isolated } from "./script-direction"

/** What a letter tells of a person. */
export type LetterFacts = {
  readonly name: string | null
  readonly clinic: string
  readonly clinician: string | null
  readonly nextVisitOn: PlainDate | null
  readonly today: PlainDate
  readonly reasons: readonly ReasonFact[]
}

/** A letter to one person; texts of several lines but the subject. `inEnglish` are the ids whose words the clinic lacks in its language. */
export type FilledLetter = {
  readonly language: string
  readonly direction: "ltr" | "rtl"
  readonly letterhead: string
  readonly subject: string
  readonly body: string
  readonly closing: string
  readonly reasons: readonly string[]
  readonly inEnglish: readonly WordId[]
}

/**
 * The letter that a template makes for a person. What is filled in is not read for fields again. Values stand beside
 * the reasons only where the clinic's setting lets them.
 */
export function fillLetter(template: LetterTemplate, facts: LetterFacts, settings: Settings): FilledLetter {
  const { language } = template
  const own = ownWordsOf(template.ownWords).words
  const { lines, inEnglish } = letterReasons(facts.reasons, { own, language, settings })
  const onRecord: Readonly<Record<LetterField, string | null>> = {
    ...{ name: facts.name, clinic: facts.clinic, clinician: facts.clinician },
    ...{ today: dayIn(language, facts.today), reasons: lines.join("\n") },
    nextVisit: facts.nextVisitOn === null ? null : dayIn(language, facts.nextVisitOn),
  }
  const lacking = new Set<WordId>(inEnglish)
  const filled = (field: LetterField): string => {
    const said = onRecord[field]
    const absent = absentOf[field]
    if (said !== null || absent === undefined) return said ?? ""
    if (!own.has(absent) && !isEnglish(language)) lacking.add(absent)
    return own.get(absent) ?? programAbsent[absent]
  }
  const said = (part: "letterhead" | "subject" | "body" | "closing") =>
    piecesOf(part, template[part])
      .pieces.map((piece) => (piece.kind === "words" ? piece.words : isolated(filled(piece.field), language)))
      .join("")
  return {
    ...{ language, direction: directionOf(language), reasons: lines },
    ...{ letterhead: said("letterhead"), subject: said("subject") },
    ...{ body: said("body"), closing: said("closing") },
    inEnglish: [...lacking],
  }
}

const absentOf: Readonly<Partial<Record<LetterField, keyof typeof programAbsent>>> = {
  name: "no-name",
  clinician: "no-clinician",
  nextVisit: "no-visit",
}

/** A day in full in a language, by the calendar of the clinic's records. */
function dayIn(language: string, plainDate: PlainDate): string {
  const format = { calendar: "gregory", dateStyle: "long", timeZone: "UTC" } as const
  return new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, format).format(
    new Date(`${plainDate}T00:00:00Z`),
  )
}
