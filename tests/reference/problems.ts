import { isInLastMonths, plusMonths, type Day } from "./day"
import type { Problem } from "./facts"
import type { Person } from "./people"

/** Code beginnings without dots, after the definitions. */
const codeStarts = {
  ckd: ["N18"],
  ckdStage5: ["N185"],
  dialysis: ["Z992", "N186"],
  transplant: ["Z940", "T861"],
  hypertension: ["I10", "I11", "I12", "I13", "I15"],
  diabetes: ["E08", "E09", "E10", "E11", "E12", "E13", "E14"],
  type1Diabetes: ["E10"],
  heartFailure: ["I50", "I110", "I130", "I132", "I0981"],
  pregnancy: ["O", "Z331", "Z34", "Z3A"],
  palliative: ["Z515"],
} as const

/** SNOMED CT equivalents, after the value sets of the CMS quality measures; empty where none was looked up. */
const snomedCodes: Record<Condition, readonly string[]> = {
  ckd: ["433144002", "431857002", "433146000", "46177005"],
  ckdStage5: ["433146000"],
  dialysis: ["46177005", "236435004"],
  transplant: ["161665007"],
  hypertension: ["38341003", "59621000"],
  diabetes: [],
  type1Diabetes: [],
  heartFailure: [],
  pregnancy: [],
  palliative: [],
}

export type Condition = keyof typeof codeStarts

export function hasProblem(person: Person, condition: Condition, on: Day): boolean {
  return startsOfActive(person, condition, on).length > 0
}

/** The start days of the problems of that kind which are active on the day. */
export function startsOfActive(person: Person, condition: Condition, on: Day): Day[] {
  return person.problems
    .filter((problem) => problem.isConfirmed && isOfCondition(problem, condition))
    .map((problem) => {
      const start = problem.onsetOn ?? problem.recordedOn ?? person.registeredOn
      const end = problem.resolvedOn ?? (condition === "pregnancy" ? plusMonths(start, 10) : Infinity)
      return { start, end }
    })
    .filter(({ start, end }) => start <= on && end > on)
    .map(({ start }) => start)
}

export function isOnDialysis(person: Person, on: Day): boolean {
  const hadDialysisVisit = person.visits.some(
    (visit) => visit.kind === "dialysis" && isInLastMonths(visit.startedOn, on, 3),
  )
  return hadDialysisVisit || hasProblem(person, "dialysis", on)
}

function isOfCondition(problem: Problem, condition: Condition): boolean {
  if (problem.code === null) return false
  if (problem.codeSystem === "snomed") return snomedCodes[condition].includes(problem.code)
  const plain = problem.code.replaceAll(".", "").toUpperCase()
  return codeStarts[condition].some((start) => plain.startsWith(start))
}
