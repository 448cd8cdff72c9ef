import { isInLastMonths, type Day } from "./day"
import type { Lab } from "./facts"
import { compareWithSigns, isAbove, isAtLeast } from "./lab-results"

export type Albuminuria = "confirmed" | "raised once" | "none" | "unknown"

/** ACR and PCR results up to a day, oldest first, the higher last at one instant; preliminary ones are no results. */
export function urineResults(labs: Lab[], on: Day): Lab[] {
  return labs
    .filter((lab) => (lab.test === "uacr" || lab.test === "upcr") && !lab.isPreliminary && lab.day <= on)
    .sort((a, b) => a.instant - b.instant || compareWithSigns(a, b))
}

export function latestAcr(results: Lab[], on: Day): Lab | null {
  return results.filter((lab) => lab.test === "uacr" && isInLastMonths(lab.day, on, 24)).at(-1) ?? null
}

/** The result that decides the urine category: of the latest day with one, its latest ACR, else its latest PCR. */
export function decidingResult(results: Lab[], on: Day): Lab | null {
  const inWindow = results.filter((lab) => isInLastMonths(lab.day, on, 24))
  const latestDay = inWindow.at(-1)?.day
  const ofThatDay = inWindow.filter((lab) => lab.day === latestDay)
  return ofThatDay.filter((lab) => lab.test === "uacr").at(-1) ?? ofThatDay.at(-1) ?? null
}

/** Cut in the unit the laboratory reported: per gram the standard value says it, per millimole the reported one. */
export function urineCategory(lab: Lab): "A1" | "A2" | "A3" {
  const [a2, a3] = limitsOf(lab)
  const value = lab.isPerMillimole ? lab.reported : lab.value
  if (isAbove(lab, value, a3)) return "A3"
  return isAtLeast(lab, value, a2) ? "A2" : "A1"
}

export function albuminuria(results: Lab[], on: Day): Albuminuria {
  const result = decidingResult(results, on)
  if (!result) return "unknown"
  if (urineCategory(result) === "A1") return "none"
  const hasEarlier = results.some(
    (other) =>
      urineCategory(other) !== "A1" && result.day - other.day >= 90 && isInLastMonths(other.day, on, 36),
  )
  return hasEarlier || isTooHighToRepeat(result) ? "confirmed" : "raised once"
}

/** NICE NG203: so high that no repeat is asked. */
function isTooHighToRepeat(lab: Lab): boolean {
  if (lab.isPerMillimole) return isAtLeast(lab, lab.reported, lab.test === "uacr" ? "70" : "100")
  return isAtLeast(lab, lab.value, lab.test === "uacr" ? "620" : "1000")
}

function limitsOf(lab: Lab): readonly [string, string] {
  if (lab.test === "uacr") return lab.isPerMillimole ? ["3", "30"] : ["30", "300"]
  return lab.isPerMillimole ? ["15", "50"] : ["150", "500"]
}
