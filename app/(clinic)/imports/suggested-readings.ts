import type { DrugSuggestion } from "../../../lib/questions/drug-suggestions"
import type { DrugText } from "../../../lib/questions/drug-texts"

/** What a drug text would mean if its misspelt words were the names beside it. */
export type SuggestedReading = { names: readonly string[]; ingredients: readonly string[] }

const most = 3

/**
 * The readings that the suggestions of a text allow, each with what was recognised already. A word near two names gives two
 * readings; where there are many, the first few.
 */
export function suggestedReadings(
  text: Pick<DrugText, "normalised" | "ingredients">,
  suggestions: readonly DrugSuggestion[],
): SuggestedReading[] {
  const nearby = suggestions.filter((suggestion) => suggestion.normalised === text.normalised)
  if (nearby.length === 0) return []
  const words = new Set(nearby.map((suggestion) => suggestion.word))
  let readings: SuggestedReading[] = [{ names: [], ingredients: text.ingredients }]
  for (const word of words) {
    const names = nearby.filter((suggestion) => suggestion.word === word)
    readings = readings
      .flatMap((reading) =>
        names.map(({ name, ingredients }) => ({
          names: [...reading.names, name],
          ingredients: [...new Set([...reading.ingredients, ...ingredients])],
        })),
      )
      .slice(0, most)
  }
  return readings
}
