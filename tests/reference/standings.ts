import type { Clinical } from "./clinical"
import { careQuestions } from "./questions-of-care"
import { drugQuestions } from "./questions-of-drugs"
import { kidneyQuestions } from "./questions-of-kidney"
import { pressureQuestions } from "./questions-of-pressure"
import { isDecidedInMonth, standingOf, type Question, type Standing } from "./question"

/** By measure, whether the deciding fact is of the month; null where the measure has none. */
export type OfMonth = Record<string, boolean | null>

export type Standings = Record<string, Standing>

/** Every measure of section 8 with standings. */
export const questions: Question[] = [
  ...pressureQuestions,
  ...drugQuestions,
  ...kidneyQuestions,
  ...careQuestions,
]

export function standingsOf(clinical: Clinical): Standings {
  return Object.fromEntries(questions.map((question) => [question.id, standingOf(question, clinical)]))
}

export function decidedInMonth(clinical: Clinical): OfMonth {
  return Object.fromEntries(questions.map((question) => [question.id, isDecidedInMonth(question, clinical)]))
}
