import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../../../_ui/href"

/** The most letters that are chosen one by one. */
export const mostChosen = 200

const number = z.coerce.number().int().positive().max(2_000_000_000)

const LettersView = z.object({
  /** The place after which a page goes on; null is the first page. */
  after: number.nullable().catch(null).default(null),
})

export type LettersView = z.infer<typeof LettersView>

export function parseLettersView(raw: RawSearch): LettersView {
  return LettersView.parse(single(raw))
}

export function lettersHref(view: Partial<LettersView>): string {
  return hrefOf("/outreach/letters", { after: view.after ?? null })
}

const ChosenLetters = z.object({
  /** Numbers of cases with a comma between, nobody where they are none; null is everybody for whom a letter is next. */
  letters: z
    .string()
    .transform((text): unknown => text.split(","))
    .pipe(z.array(number).max(mostChosen))
    .catch([])
    .nullable()
    .default(null),
})

export type ChosenLetters = z.infer<typeof ChosenLetters>

export function parseChosenLetters(raw: RawSearch): ChosenLetters {
  return ChosenLetters.parse(single(raw))
}

export function sheetsHref(ids: readonly number[]): string {
  return `/outreach/letters/sheets?letters=${ids.join(",")}`
}

export const letterFormats = ["csv", "xlsx"] as const

export type LetterFormat = (typeof letterFormats)[number]

/** The file of some letters, or of all. */
export function letterFileHref(format: LetterFormat, ids: readonly number[] | null): string {
  return `/api/outreach/letters?format=${format}${ids === null ? "" : `&letters=${ids.join(",")}`}`
}
