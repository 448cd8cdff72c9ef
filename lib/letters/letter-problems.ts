import type { LetterPart, LetterTexts } from "../domain/letter-template"
import { ownWordsOf } from "./own-words"
import { piecesOf } from "./letter-pieces"

/** What is wrong at a place of a letter and what to do about it; lines and columns count from 1. */
export type LetterProblem = {
  readonly part: LetterPart
  readonly line: number
  readonly column: number
  readonly message: string
}

const written = ["letterhead", "subject", "body", "closing"] as const

/** Everything that keeps a letter from being used, part by part; empty when nothing does. */
export function letterProblems(texts: LetterTexts): LetterProblem[] {
  const needed = (["subject", "body"] as const).filter((part) => texts[part].trim() === "")
  return [
    ...needed.map((part) => ({ part, line: 1, column: 1, message: `The ${part} is empty.` })),
    ...written.flatMap((part) => piecesOf(part, texts[part]).problems),
    ...ownWordsOf(texts.ownWords).problems,
  ]
}
