import type { LetterPart } from "../domain/letter-template"
import { isLetterField, letterFields, type LetterPiece } from "./letter-fields"
import type { LetterProblem } from "./letter-problems"

const known = letterFields.map((field) => `{${field.name}}`).join(", ")

/** A field in braces, or a brace that stands alone. */
const braces = /\{([^{}\n]*)\}|[{}]/g

/** A part of a letter as its pieces, with everything in braces that is no field of it. */
export function piecesOf(
  part: LetterPart,
  text: string,
): { pieces: LetterPiece[]; problems: LetterProblem[] } {
  const pieces: LetterPiece[] = []
  const problems: LetterProblem[] = []
  let end = 0
  for (const match of text.matchAll(braces)) {
    const field = match[1]
    const message = problemOf(part, field)
    if (message !== null) problems.push({ part, ...placeOf(text, match.index), message })
    if (field === undefined || !isLetterField(field)) continue
    pieces.push({ kind: "words", words: text.slice(end, match.index) }, { kind: "field", field })
    end = match.index + match[0].length
  }
  pieces.push({ kind: "words", words: text.slice(end) })
  return { pieces: pieces.filter((piece) => piece.kind === "field" || piece.words !== ""), problems }
}

function problemOf(part: LetterPart, field: string | undefined): string | null {
  if (field === undefined)
    return "A brace stands alone. Close the field as in {name}, or take the brace away."
  if (!isLetterField(field)) return `There is no field {${field}}. Use one of ${known}.`
  if (field === "reasons" && part !== "body") return "{reasons} stands in the body alone. Move it there."
  return null
}

/** Where a place of a text is, in lines and letters from 1. */
function placeOf(text: string, index: number): { line: number; column: number } {
  const lines = text.slice(0, index).split("\n")
  return { line: lines.length, column: [...(lines.at(-1) ?? "")].length + 1 }
}
