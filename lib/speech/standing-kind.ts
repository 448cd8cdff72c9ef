import type { Standing } from "../domain/standings"
import type { WordedMeasure } from "../measures/types"

/** What a standing asks of a reader, most pressing first. */
export const standingKinds = ["wanting", "unknown", "exception", "reached", "excluded", "outside"] as const

export type StandingKind = (typeof standingKinds)[number]

/** Which of met and not met wants attention depends on the measure. */
export function standingKind(
  { direction }: Pick<WordedMeasure, "direction">,
  standing: Standing,
): StandingKind {
  const wanting = direction === "up" ? "not met" : "met"
  if (standing === wanting) return "wanting"
  return standing === "met" || standing === "not met" ? "reached" : standing
}
