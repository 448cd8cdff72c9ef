import { dietSodium } from "../measures/diet-sodium"
import type { Condition, WordedMeasure } from "../measures/types"
import { listed, milligrams, sentenceCase } from "../speech/format"

/** A term of a definition and what it says. */
export type DefinitionRow = [string, string]

/** How a measure is decided, standing by standing, and from which source; terms that say nothing are left out. */
export function measureDefinition(measure: WordedMeasure): DefinitionRow[] {
  const rows: DefinitionRow[] = [
    ["Counts", words(measure.population, "; and ")],
    ["Excluded", words(measure.excluded, "; or ")],
    ["Not measured", words(measure.unknown, "; or ")],
    [sentenceCase(measure.metWords), measure.met.words],
    ["Documented reason", words(measure.exception, "; or ")],
    ["Source", measure.source],
  ]
  return rows.filter(([, said]) => said !== "")
}

/** The same of the mean sodium, which has no standings. */
export function dietDefinition(): DefinitionRow[] {
  return [
    ["Counts", "everyone in the panel with a record of the month; each weighs one"],
    ["Ways of asking", `${listed(dietSodium.series)}; never mixed in one mean`],
    [
      "In the same people",
      "their mean this month less their mean in the months 15 to 3 before, of one series",
    ],
    ["Interval", "95% by Student's t; of one person none"],
    ...dietSodium.limits.map((limit): DefinitionRow => [milligrams(limit.mg), limit.source]),
  ]
}

function words(conditions: readonly Condition[], joint: string): string {
  return conditions.map((one) => one.words).join(joint)
}
