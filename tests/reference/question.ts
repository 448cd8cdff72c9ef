import type { Clinical } from "./clinical"
import { monthNumber, type Day } from "./day"
import { hasProblem, isOnDialysis } from "./problems"

export type Standing = "outside" | "excluded" | "unknown" | "met" | "exception" | "not met"

/** What a measure asks of one person on one day; what is left out does not hold. */
export type Conditions = {
  isIn: boolean
  /** A reason of this measure alone, beside those that exclude from all. */
  isExcluded?: boolean
  isUnknown?: boolean
  isMet: boolean
  isException?: boolean
}

export type Question = {
  id: string
  direction: "up" | "down"
  /** A safety measure excludes only people in palliative care. */
  isSafety?: true
  ask: (clinical: Clinical) => Conditions
  /** The day of the fact that decides, by which a month's own series is made; a question without it has no such series. */
  factOn?: (clinical: Clinical) => Day | null
}

/** Whether the fact that decides is dated in the month of the day; null for a question without such a fact. */
export function isDecidedInMonth(question: Question, clinical: Clinical): boolean | null {
  if (!question.factOn) return null
  const day = question.factOn(clinical)
  return day !== null && day <= clinical.on && monthNumber(day) === monthNumber(clinical.on)
}

/** The first that applies. */
export function standingOf(question: Question, clinical: Clinical): Standing {
  const conditions = question.ask(clinical)
  if (!conditions.isIn) return "outside"
  if (isGenerallyExcluded(question, clinical) || conditions.isExcluded) return "excluded"
  if (conditions.isUnknown) return "unknown"
  if (conditions.isMet) return "met"
  return conditions.isException ? "exception" : "not met"
}

function isGenerallyExcluded({ isSafety }: Question, { person, on }: Clinical): boolean {
  if (hasProblem(person, "palliative", on)) return true
  if (isSafety) return false
  return (
    isOnDialysis(person, on) || hasProblem(person, "transplant", on) || hasProblem(person, "pregnancy", on)
  )
}
