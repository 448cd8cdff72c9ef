import "server-only"
import { plainToday, type PlainDate } from "../../../../lib/domain/plain-date"
import {
  templatesInForce,
  type LetterTexts,
  type WrittenTemplate,
} from "../../../../lib/domain/letter-template"
import type { Settings } from "../../../../lib/domain/settings"
import { isEnglish } from "../../../../lib/letters/letter-reasons"
import { programLetter } from "../../../../lib/letters/program-letter"
import { listLetterTemplates } from "../../../../lib/store/letter-templates"
import { readSettings } from "../../../../lib/store/settings"
import { site } from "../../../_http/site"
import { clinicTimeZone } from "../../time-zone"

/** What an invented letter is filled with. */
export type LetterSetting = { clinic: string; today: PlainDate; settings: Settings }

export type ShownLetters = {
  /** Languages with a letter in force, the first is what others fall back to. */
  inForce: readonly WrittenTemplate[]
  language: string
  /** What the form begins with. */
  texts: LetterTexts
  /** How often the language was written, 0 for never. */
  version: number
  isInForce: boolean
  /** Everything written in any language, latest first. */
  history: readonly WrittenTemplate[]
}

const nothingWritten: LetterTexts = { letterhead: "", subject: "", body: "", closing: "", ownWords: "" }

/** The letter of a language as it stands, or what a new one begins with: in English the program's. */
export async function shownLetters(asked: string | null): Promise<ShownLetters> {
  const written = await listLetterTemplates(site().client)
  const inForce = templatesInForce(written)
  const language = asked ?? inForce[0]?.language ?? programLetter.language
  const latest = written.findLast((one) => one.language === language)
  const isInForce = latest !== undefined && latest.body !== ""
  const fresh = isEnglish(language) ? programLetter : nothingWritten
  const texts = isInForce ? latest : fresh
  return { inForce, language, texts, version: latest?.version ?? 0, isInForce, history: written.toReversed() }
}

export async function letterSetting(now: Date): Promise<LetterSetting> {
  const { client } = site()
  const [clinic, settings, timeZone] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    readSettings(client),
    clinicTimeZone(),
  ])
  return { clinic: clinic?.name ?? "The clinic", today: plainToday(now, timeZone), settings }
}
