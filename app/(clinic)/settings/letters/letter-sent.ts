import type { LetterTexts } from "../../../../lib/domain/letter-template"
import type { FilledLetter } from "../../../../lib/letters/fill-letter"
import type { LetterProblem } from "../../../../lib/letters/letter-problems"

/** What came of the form of a letter: what is wrong in words or by place, or how it looks. */
export type LetterSent = {
  problem: string | null
  problems: readonly LetterProblem[]
  preview: FilledLetter | null
  typed: LetterTexts
}
