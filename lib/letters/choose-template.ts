import { languageTag, type LetterTemplate } from "../domain/letter-template"
import { programLetter } from "./program-letter"

/** Which letter somebody gets: the clinic's or the program's, and whether it is in their language. */
export type ChosenTemplate = {
  readonly template: LetterTemplate
  readonly isProgram: boolean
  readonly isOwnLanguage: boolean
}

/**
 * The letter for whoever speaks a language (BCP 47; null is not known): the clinic's in the same tag, or in the same language
 * and script; for who speaks English the program's; else the one the clinic wrote first, or the program's where it wrote none.
 */
export function chooseTemplate(
  templates: readonly LetterTemplate[],
  language: string | null,
): ChosenTemplate {
  const tag = language === null ? null : languageTag(language)
  const same = templates.find((one) => one.language === tag)
  const own = same ?? templates.find((one) => tag !== null && spokenOf(one.language) === spokenOf(tag))
  if (own) return { template: own, isProgram: false, isOwnLanguage: true }
  const isEnglish = tag !== null && spokenOf(tag) === spokenOf(programLetter.language)
  const [first] = templates
  if (isEnglish || first === undefined)
    return { template: programLetter, isProgram: true, isOwnLanguage: isEnglish }
  return { template: first, isProgram: false, isOwnLanguage: false }
}

/** A language with its script: "zh-TW" and "zh-Hant" are one, "zh" is another. */
function spokenOf(tag: string): string {
  const { language, script } = new Intl.Locale(tag).maximize()
  return `${language}-${script ?? ""}`
}
