import type { Settings } from "../domain/settings"
import { reasons } from "../outreach/reasons"
import { amountParts, type ReasonFact } from "../speech/outreach-words"
import type { WordId } from "./own-words"
import { isolated } from "./script-direction"

type Told = { own: ReadonlyMap<WordId, string>; language: string; settings: Settings }

/**
 * The reasons as a letter says them, each words once, in the clinic's words where it wrote some and else in the
 * program's English; `inEnglish` are those for which a letter in another language has none. Values stand in
 * brackets after the words if the clinic switched them on, and nowhere otherwise.
 */
export function letterReasons(
  held: readonly ReasonFact[],
  told: Told,
): { lines: string[]; inEnglish: WordId[] } {
  const spoken = held.flatMap((fact) => {
    const known = reasons.find((one) => one.id === fact.reason)
    return known ? [{ fact, id: known.id, words: told.own.get(known.id) ?? known.patientWords }] : []
  })
  return {
    lines: [...new Set(spoken.map(({ fact, words }) => withValue(words, fact, told)))],
    inEnglish: isEnglish(told.language) ? [] : spoken.map(({ id }) => id).filter((id) => !told.own.has(id)),
  }
}

/** Whether the program's own words do for a language. */
export function isEnglish(language: string): boolean {
  return /^en\b/.test(language)
}

function withValue(words: string, fact: ReasonFact, { language, settings }: Told): string {
  if (settings["outreach.letterValues"] !== "yes") return words
  const value = valueIn(language, fact)
  return value === null ? words : `${words} ${isolated(`(${value})`, language)}`
}

/** A value as a reader of the language writes it; no sign parts thousands, which elsewhere would be a decimal's. */
function valueIn(language: string, fact: ReasonFact): string | null {
  const parts = amountParts(fact)
  if (parts === null) return null
  const number = (value: number, decimals: number) =>
    value.toLocaleString(language, {
      ...{ minimumFractionDigits: decimals, maximumFractionDigits: decimals },
      ...{ useGrouping: false, numberingSystem: "latn" },
    })
  if (parts.kind === "pressure") return `${number(parts.systolic, 0)}/${number(parts.diastolic, 0)} mmHg`
  return `${parts.comparator ?? ""}${number(parts.number, parts.decimals)} ${parts.unit}`
}
