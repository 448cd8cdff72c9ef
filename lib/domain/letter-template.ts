import { z } from "zod"
import { TypedText } from "./typed-text"

/** The most letters of each part. */
export const letterLimits = {
  letterhead: 1000,
  subject: 200,
  body: 6000,
  closing: 1000,
  ownWords: 6000,
} as const

export type LetterPart = keyof typeof letterLimits

/** Browsers end lines in their own way; a letter has one. */
const Lines = z.string().transform((text) => text.replaceAll(/\r\n?/g, "\n").trimEnd())

const part = (name: LetterPart) => Lines.pipe(TypedText.max(letterLimits[name]))

/** A letter as the clinic writes it, with fields in braces; `ownWords` are its words of the reasons, one a line. */
export const LetterTexts = z.object({
  letterhead: part("letterhead"),
  subject: part("subject"),
  body: part("body"),
  closing: part("closing"),
  ownWords: part("ownWords"),
})

export type LetterTexts = z.infer<typeof LetterTexts>

/** A letter in its language, a tag by BCP 47. */
export type LetterTemplate = LetterTexts & { readonly language: string }

/** The same as somebody wrote it, with how often the language was written; with an empty body it is withdrawn. */
export type WrittenTemplate = LetterTemplate & {
  readonly version: number
  readonly writtenBy: string
  readonly writtenAt: Date
}

/** A tag by BCP 47 as it is usually written, "pt-BR"; null where a text is none. */
export function languageTag(text: string): string | null {
  const tag = text.trim()
  if (!/^[a-z]{2,3}(-[a-z0-9]{2,8}){0,3}$/i.test(tag)) return null
  try {
    return Intl.getCanonicalLocales(tag)[0] ?? null
  } catch {
    return null
  }
}

/** The letters in force of all that were written, earliest first: the latest of each language, languages as they were first written. */
export function templatesInForce(written: readonly WrittenTemplate[]): WrittenTemplate[] {
  const latest = new Map<string, WrittenTemplate>()
  for (const one of written) latest.set(one.language, one)
  return [...latest.values()].filter((one) => one.body !== "")
}
