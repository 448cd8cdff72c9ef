import { languageName } from "../speech/format"
import type { ChosenTemplate } from "./choose-template"
import { languageTag } from "../domain/letter-template"

/** In which words somebody gets a letter, and why not in their own: "English, since none is written in Vietnamese". */
export function chosenWords(
  { template, isProgram, isOwnLanguage }: ChosenTemplate,
  language: string | null,
): string {
  const written = languageName(template.language)
  const named = isProgram ? `${written}, the program’s own` : written
  if (isOwnLanguage) return named
  const spoken = language === null ? null : languageTag(language)
  const why = spoken === null ? "the language is not known" : `none is written in ${languageName(spoken)}`
  return `${named}, since ${why}`
}
