import { ageInYears, isInLastDays, isInLastMonths, minusMonths, type Day } from "./day"
import type { DrugClass } from "./drug-list"
import type { Lab } from "./facts"
import { hasRasAllergyReason } from "./allergies"
import { isAbove } from "./lab-results"
import type { Person } from "./people"
import { isAtTarget, isUnder140Over90, lowestOfLatestDay, type Pressure } from "./pressure"
import { hasProblem, isOnDialysis, startsOfActive } from "./problems"
import type { Albuminuria } from "./urine"

export type Standing = "outside" | "excluded" | "unknown" | "met" | "exception" | "not met"

/** What the standings of one person on one day are read from. */
export type Clinical = {
  person: Person
  on: Day
  pressure: Pressure | null
  classes: DrugClass[]
  newestClassOn: Day | null
  egfr: number | null
  isCkd: boolean
  albuminuria: Albuminuria
  isOnRasBlocker: boolean
  potassium: Lab | null
  urine: Lab[]
}

type Conditions = {
  isIn: boolean
  isExcluded: boolean
  isUnknown: boolean
  isMet: boolean
  isException: boolean
}

export function standingsOf(clinical: Clinical) {
  return {
    "bp-at-target": standingOf(bpAtTarget(clinical)),
    "bp-under-140-90": standingOf(bpUnder140Over90(clinical)),
    "pressure-measured": standingOf(pressureMeasured(clinical)),
    "uncontrolled-on-several-classes": standingOf(uncontrolledOnSeveralClasses(clinical)),
    "ras-blocker-in-albuminuria": standingOf(rasBlockerInAlbuminuria(clinical)),
    "acr-tested": standingOf(acrTested(clinical)),
  }
}

/** The first that applies. */
function standingOf(conditions: Conditions): Standing {
  if (!conditions.isIn) return "outside"
  if (conditions.isExcluded) return "excluded"
  if (conditions.isUnknown) return "unknown"
  if (conditions.isMet) return "met"
  return conditions.isException ? "exception" : "not met"
}

function bpAtTarget({ pressure, isCkd, person, on }: Clinical): Conditions {
  return {
    isIn: isCkd,
    isExcluded: isGenerallyExcluded(person, on),
    isUnknown: pressure === null,
    isMet: pressure !== null && isAtTarget(pressure),
    isException: false,
  }
}

function bpUnder140Over90({ person, on, egfr }: Clinical): Conditions {
  const lowest = lowestOfLatestDay(person.readings, on)
  const age = ageInYears(person.birth, on)
  const beganByThen = startsOfActive(person, "hypertension", on).some((start) => start <= minusMonths(on, 6))
  const isStage5 = hasProblem(person, "ckdStage5", on) || (egfr !== null && egfr < 15)
  return {
    isIn: beganByThen && age >= 18 && age <= 85,
    isExcluded: isGenerallyExcluded(person, on) || isStage5,
    isUnknown: lowest === null,
    isMet: lowest !== null && isUnder140Over90(lowest),
    isException: false,
  }
}

function pressureMeasured({ pressure, isCkd, person, on }: Clinical): Conditions {
  return {
    isIn: isCkd,
    isExcluded: isGenerallyExcluded(person, on),
    isUnknown: false,
    isMet: pressure !== null,
    isException: false,
  }
}

function uncontrolledOnSeveralClasses(clinical: Clinical): Conditions {
  const { pressure, classes, newestClassOn, isCkd, person, on } = clinical
  return {
    isIn: classes.length >= 3 && (isCkd || hasProblem(person, "hypertension", on)),
    isExcluded: isGenerallyExcluded(person, on),
    isUnknown: pressure === null || (newestClassOn !== null && pressure.on < newestClassOn),
    isMet: pressure !== null && !isAtTarget(pressure),
    isException: false,
  }
}

function rasBlockerInAlbuminuria(clinical: Clinical): Conditions {
  const { person, on, egfr, albuminuria, isOnRasBlocker, potassium, pressure } = clinical
  const isPotassiumHigh =
    potassium !== null && isInLastDays(potassium.day, on, 90) && isAbove(potassium, potassium.value, "5.5")
  const isPressureLow = pressure !== null && pressure.systolic < 110 && isInLastDays(pressure.on, on, 90)
  return {
    isIn: albuminuria === "confirmed",
    isExcluded: isGenerallyExcluded(person, on) || (egfr !== null && egfr < 15),
    isUnknown: false,
    isMet: isOnRasBlocker,
    isException: hasRasAllergyReason(person.allergies, on) || isPotassiumHigh || isPressureLow,
  }
}

function acrTested({ person, on, isCkd, urine }: Clinical): Conditions {
  return {
    isIn: isCkd,
    isExcluded: isGenerallyExcluded(person, on),
    isUnknown: false,
    isMet: urine.some((lab) => isInLastMonths(lab.day, on, 12)),
    isException: false,
  }
}

function isGenerallyExcluded(person: Person, on: Day): boolean {
  return (
    isOnDialysis(person, on) ||
    hasProblem(person, "transplant", on) ||
    hasProblem(person, "palliative", on) ||
    hasProblem(person, "pregnancy", on)
  )
}
