import { reasonIds } from "../domain/reason-ids"
import type { LetterProblem } from "./letter-problems"

/** What a letter says in place of something that is not on record. */
export const absentIds = ["no-name", "no-clinician", "no-visit"] as const

/** Everything the clinic may have words of its own for. */
const wordIds = [...reasonIds, ...absentIds]

export type WordId = (typeof wordIds)[number]

/** The clinic's words from lines such as "urine-albumin-due: A urine test is due."; empty lines say nothing. */
export function ownWordsOf(text: string): {
  words: ReadonlyMap<WordId, string>
  problems: LetterProblem[]
} {
  const words = new Map<WordId, string>()
  const problems: LetterProblem[] = []
  for (const [index, line] of text.split("\n").entries()) {
    if (line.trim() === "") continue
    const read = readLine(line, words)
    if (typeof read === "string")
      problems.push({ part: "ownWords", line: index + 1, column: 1, message: read })
    else words.set(read.id, read.said)
  }
  return { words, problems }
}

/** A line as the id and its words, or what is wrong with it. */
function readLine(line: string, before: ReadonlyMap<WordId, string>): { id: WordId; said: string } | string {
  const colon = line.indexOf(":")
  if (colon === -1) return "A line is the id of a reason, a colon and the words, as in urine-albumin-due: ..."
  const name = line.slice(0, colon).trim()
  const said = line.slice(colon + 1).trim()
  const id = wordIds.find((one) => one === name)
  if (id === undefined) return `There is no reason "${name}". The ids stand beneath the field.`
  if (before.has(id)) return `"${id}" has words already. Keep one of the two lines.`
  if (said === "") return `"${id}" has no words. Write them, or take the line away.`
  return /[{}]/.test(said) ? "Words of a reason hold no field. Take the braces away." : { id, said }
}
