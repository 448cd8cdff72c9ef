import { chosenWords } from "../../../../lib/letters/letter-words"
import { attemptsWords } from "../../../../lib/speech/outreach-row-words"
import { listed, sentenceCase } from "../../../../lib/speech/format"
import type { DueLetter } from "./letters-answers"

/** Somebody for whom a letter is next, as the form of letters shows them. */
export type LetterRow = {
  id: number
  version: number
  publicId: string
  name: string
  number: string
  reasons: readonly string[]
  tried: string
  /** In which words the letter is. */
  words: string
  /** What of it is not in the language of the person, or null. */
  lacks: string | null
}

export function letterRow({ row: { one, person }, name, language, chosen, letter }: DueLetter): LetterRow {
  const isEnglish = letter.inEnglish.length > 0
  return {
    ...{ id: one.id, version: one.version, publicId: one.public_id },
    ...{ name: name ?? "Name not on record", number: one.patientId, reasons: letter.reasons },
    tried: [person?.preferred_contact === "letter" ? "Prefers letters." : "", attemptsWords(one.tried)]
      .filter((words) => words !== "")
      .join(" "),
    words: sentenceCase(chosenWords(chosen, language)),
    lacks: isEnglish ? `English words for ${listed(letter.inEnglish)}` : null,
  }
}
