import { z } from "zod"
import { languageTag } from "../../../../lib/domain/letter-template"
import { hrefOf, single, type RawSearch } from "../../../_ui/href"

const LettersView = z.object({
  /** Of which language the letter is shown; null is the first there is. */
  language: z.string().transform(languageTag).nullable().catch(null).default(null),
})

export type LettersView = z.infer<typeof LettersView>

export function parseLettersView(raw: RawSearch): LettersView {
  return LettersView.parse(single(raw))
}

export function lettersHref(language: string): string {
  return hrefOf("/settings/letters", { language })
}
