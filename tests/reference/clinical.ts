import type { Day } from "./day"
import { sodiumRecords } from "./diet"
import { classesOn, newestClassStart } from "./drugs"
import { egfrDays, isLowForThreeMonths, latestEgfr } from "./kidney"
import { latestPotassium } from "./lab-results"
import type { Person } from "./people"
import { representativePressure } from "./pressure"
import { hasProblem, isOnDialysis } from "./problems"
import { albuminuria, urineResults } from "./urine"

/** What the standings of one person on one day are read from. */
export type Clinical = ReturnType<typeof clinicalOn>

export function clinicalOn(person: Person, on: Day) {
  const { courses } = person
  const days = egfrDays(person, on)
  const urine = urineResults(person.labs, on)
  const albumin = albuminuria(urine, on)
  return {
    person,
    on,
    pressure: representativePressure(person.readings, on),
    courses,
    classes: classesOn(courses, on),
    newestClassOn: newestClassStart(courses, on),
    egfrDays: days,
    egfr: latestEgfr(days, on),
    urine,
    albuminuria: albumin,
    isCkd:
      isLowForThreeMonths(days, on) ||
      albumin === "confirmed" ||
      hasProblem(person, "ckd", on) ||
      isOnDialysis(person, on) ||
      hasProblem(person, "transplant", on),
    potassium: latestPotassium(person.labs, on),
    sodium: sodiumRecords(person),
  }
}
