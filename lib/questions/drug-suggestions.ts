import { z } from "zod"

export const DrugSuggestion = z.object({
  /** The key under which a person's mapping is kept. */
  normalised: z.string(),
  word: z.string(),
  /** A known name that the word misses by one letter. */
  name: z.string(),
  ingredients: z.array(z.string()),
})

export type DrugSuggestion = z.infer<typeof DrugSuggestion>

/** For the unread words of drug texts, the known names one letter away. A suggestion maps nothing until a person says so. */
export const drugSuggestions = {
  sql: `select s.normalised, s.word, s.name, list(distinct s.ingredient order by s.ingredient) as ingredients
from drug_suggestions as s
group by s.normalised, s.word, s.name
order by s.normalised, s.word, s.name`,
  Row: DrugSuggestion,
} as const
