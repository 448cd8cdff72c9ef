/** What a letter may hold in braces, with what stands there in the letter of a person. */
export const letterFields = [
  { name: "name", words: "the given and family name" },
  { name: "clinic", words: "the name of the clinic" },
  { name: "today", words: "the day on which the letter is made" },
  { name: "reasons", words: "what is due in plain words, one a line; in the body alone" },
  { name: "clinician", words: "the clinician of the person" },
  { name: "nextVisit", words: "the day of the next visit" },
] as const

export type LetterField = (typeof letterFields)[number]["name"]

/** A part of a letter is a row of pieces: words as they stand, and fields. */
export type LetterPiece =
  { readonly kind: "words"; readonly words: string } | { readonly kind: "field"; readonly field: LetterField }

export function isLetterField(name: string): name is LetterField {
  return letterFields.some((field) => field.name === name)
}
