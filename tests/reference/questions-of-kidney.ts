import type { Clinical } from "./clinical"
import { ageInYears, isInLastMonths } from "./day"
import { compare, exact } from "./exact"
import { egfrTestDays, stageOf } from "./kidney"
import { failureRisk2Years, slopePerYear } from "./kidney-failure"
import { isAtLeast } from "./lab-results"
import { hasProblem } from "./problems"
import type { Question } from "./question"
import { isOnSglt2Inhibitor } from "./ras-blockers"
import { decidingResult, latestAcr, urineCategory } from "./urine"

/** eGFR tests a year by G and A1, A2, A3. Source: KDIGO 2024, Kidney International 105(4S), monitoring figure. */
const testsAYear: Record<string, Record<"A1" | "A2" | "A3", number>> = {
  G1: { A1: 1, A2: 1, A3: 3 },
  G2: { A1: 1, A2: 1, A3: 3 },
  G3a: { A1: 1, A2: 2, A3: 3 },
  G3b: { A1: 2, A2: 3, A3: 3 },
  G4: { A1: 3, A2: 3, A3: 4 },
  G5: { A1: 4, A2: 4, A3: 4 },
}

export const kidneyQuestions: Question[] = [
  {
    id: "acr-tested",
    direction: "up",
    ask: (clinical) => ({ isIn: clinical.isCkd, isMet: hasUrineTest(clinical) }),
  },
  {
    id: "kidney-tests-in-diabetes",
    direction: "up",
    ask: ({ person, on, egfr, urine }) => {
      const age = ageInYears(person.birth, on)
      return {
        isIn: hasProblem(person, "diabetes", on) && age >= 18 && age <= 85,
        isExcluded: hasProblem(person, "ckdStage5", on) || (egfr !== null && egfr.egfr < 15),
        isMet:
          egfrTestDays(person, on).some((day) => isInLastMonths(day, on, 12)) &&
          urine.some((lab) => lab.test === "uacr" && isInLastMonths(lab.day, on, 12)),
      }
    },
  },
  {
    id: "monitoring-on-schedule",
    direction: "up",
    ask: (clinical) => {
      const { person, on, isCkd } = clinical
      const asked = testsAsked(clinical)
      const tests = egfrTestDays(person, on).filter((day) => isInLastMonths(day, on, 12))
      return {
        isIn: isCkd && asked !== null,
        isMet: asked !== null && tests.length >= asked && hasUrineTest(clinical),
      }
    },
  },
  {
    id: "sglt2-in-ckd",
    direction: "up",
    ask: ({ person, on, isCkd, egfr, urine, courses }) => {
      const acr = latestAcr(urine, on)
      const hasReason =
        (acr !== null && isAtLeast(acr, acr.value, "200")) ||
        hasProblem(person, "diabetes", on) ||
        hasProblem(person, "heartFailure", on)
      return {
        isIn: isCkd && egfr !== null && egfr.egfr >= 20 && hasReason,
        isExcluded: hasProblem(person, "type1Diabetes", on),
        isMet: isOnSglt2Inhibitor(courses, on),
      }
    },
  },
  {
    id: "fast-decline",
    direction: "down",
    ask: ({ on, isCkd, egfrDays }) => {
      const slope = slopePerYear(egfrDays, on)
      return { isIn: isCkd && slope !== null, isMet: slope !== null && compare(slope, exact("-5")) <= 0 }
    },
  },
  {
    id: "failure-risk",
    direction: "down",
    ask: (clinical) => {
      const risk = failureRisk2Years(clinical)
      return {
        isIn: clinical.isCkd && clinical.egfr !== null && clinical.egfr.egfr < 60,
        isUnknown: risk === null,
        isMet: risk !== null && risk > 0.1,
      }
    },
  },
]

/** An ACR or PCR in the last 12 months. */
function hasUrineTest({ urine, on }: Clinical): boolean {
  return urine.some((lab) => isInLastMonths(lab.day, on, 12))
}

/** How many eGFR tests a year the risk cell asks for; null when the cell is not known. */
export function testsAsked({ egfr, urine, on }: Clinical): number | null {
  const deciding = decidingResult(urine, on)
  if (egfr === null || deciding === null) return null
  return testsAYear[stageOf(egfr.egfr)]?.[urineCategory(deciding)] ?? null
}
