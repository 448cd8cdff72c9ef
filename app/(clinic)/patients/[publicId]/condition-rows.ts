import { withSettings } from "../../../../lib/domain/setting-words"
import type { Evidence, WordedMeasure } from "../../../../lib/measures/types"
import { askedConditions, type ConditionPart } from "../../../../lib/questions/patient-conditions"
import { evidencePhrases, type EvidencePhrase, type PressureLimits } from "./evidence-words"
import type { PatientAnswers } from "./patient-answers"

/** One condition of a measure for one person: whether it holds, and what stands behind it. */
export type ConditionRow = {
  part: ConditionPart
  words: string
  holds: boolean
  /** Of the conditions that make the measure ask this person, those whose facts are worth telling with the answer. */
  isTelling: boolean
  phrases: EvidencePhrase[]
}

const telling: ReadonlySet<Evidence> = new Set<Evidence>(["drugs", "urine"])

/** Every condition of a measure in the order in which it is tried. */
export function standingRows(
  measure: WordedMeasure,
  held: PatientAnswers["held"],
  limits: PressureLimits,
): ConditionRow[] {
  return askedConditions.flatMap((asked, place) => {
    if (asked.measure.id !== measure.id) return []
    const { condition, part } = asked
    const holds = held.holds[place] ?? false
    const isTelling = part === "population" && telling.has(condition.evidence)
    const phrases = evidencePhrases({ condition, holds }, held.evidence, limits)
    return [{ part, words: withSettings(condition.words, measure.set), holds, isTelling, phrases }]
  })
}
