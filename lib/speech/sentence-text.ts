import { count } from "./format"

export type PhraseOf =
  | { kind: "text"; text: string }
  | { kind: "number"; name: string; words: [one: string, other: string] | null }

/** A sentence with live numbers as plain text: `{met}` is the number of that name, `{met:has:have}` the word that fits it. */
export function sentenceText(template: string, numbers: Record<string, number>): string {
  return phrases(template)
    .map((phrase) => {
      if (phrase.kind === "text") return phrase.text
      const number = numbers[phrase.name] ?? 0
      return phrase.words ? wordFor(number, phrase.words) : count(number)
    })
    .join("")
}

/** The pieces of a template, in order. */
export function phrases(template: string): PhraseOf[] {
  return template
    .split(/(\{[^}]*\})/)
    .filter((piece) => piece !== "")
    .map((piece) => {
      if (!piece.startsWith("{")) return { kind: "text", text: piece }
      const [name = "", one, other] = piece.slice(1, -1).split(":")
      return { kind: "number", name, words: one === undefined || other === undefined ? null : [one, other] }
    })
}

/** The first word for one, the second for any other number. */
export function wordFor(number: number, words: [one: string, other: string]): string {
  return number === 1 ? words[0] : words[1]
}
