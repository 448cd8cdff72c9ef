import { ageInYears, isInLastMonths, type Day } from "./day"
import { mean, roundedHalfUp, toNumber, type Exact } from "./exact"
import type { Lab, Visit } from "./facts"
import type { Person } from "./people"

export type EgfrDay = { day: Day; egfr: number }

/** Every day with an eGFR that may stage the patient, oldest first, up to and including a day. */
export function egfrDays(person: Person, on: Day): EgfrDay[] {
  const { creatinines, reported } = usableLabs(person, on)
  const values = reported.filter((lab) => lab.comparator === "")
  return daysOf([...creatinines, ...values]).map((day) => {
    const creatinineOfDay = creatinines.filter((lab) => lab.day === day)
    if (creatinineOfDay.length === 0) {
      return { day, egfr: roundedHalfUp(meanValue(values.filter((lab) => lab.day === day))) }
    }
    const creatinineMgDl = toNumber(meanValue(creatinineOfDay))
    const ageYears = ageInYears(person.birth, day)
    return { day, egfr: Math.floor(ckdEpi2021({ creatinineMgDl, ageYears, sex: person.sex }) + 0.5) }
  })
}

/** Every day on which the eGFR was tested; one reported with a comparator is a test done, though it stages nobody. */
export function egfrTestDays(person: Person, on: Day): Day[] {
  const { creatinines, reported } = usableLabs(person, on)
  return daysOf([...creatinines, ...reported])
}

/** Final results up to a day, collected outside a hospital stay and at 18 or later; a creatinine needs a known sex. */
function usableLabs(person: Person, on: Day): { creatinines: Lab[]; reported: Lab[] } {
  const labs = person.labs.filter(
    (lab) =>
      !lab.isPreliminary &&
      lab.day <= on &&
      ageInYears(person.birth, lab.day) >= 18 &&
      !isInHospital(person.visits, lab.day),
  )
  return {
    creatinines: labs.filter((lab) => lab.test === "creatinine" && person.sex !== "unknown"),
    reported: labs.filter((lab) => lab.test === "egfr"),
  }
}

function daysOf(labs: Lab[]): Day[] {
  return [...new Set(labs.map((lab) => lab.day))].sort((a, b) => a - b)
}

export function latestEgfr(days: EgfrDay[], on: Day): EgfrDay | null {
  return days.filter(({ day }) => isInLastMonths(day, on, 24)).at(-1) ?? null
}

/** Is the latest eGFR below 60 at the end of an unbroken run below 60 that began at least 90 days before it? */
export function isLowForThreeMonths(days: EgfrDay[], on: Day): boolean {
  const latest = latestEgfr(days, on)
  if (!latest || latest.egfr >= 60) return false
  let runStart = latest.day
  for (const { day, egfr } of days.toReversed()) {
    if (egfr >= 60) break
    runStart = day
  }
  return latest.day - runStart >= 90
}

export function stageOf(egfr: number): string {
  if (egfr >= 90) return "G1"
  if (egfr >= 60) return "G2"
  if (egfr >= 45) return "G3a"
  if (egfr >= 30) return "G3b"
  return egfr >= 15 ? "G4" : "G5"
}

/**
 * eGFR in mL/min/1.73 m2, unrounded, from serum creatinine in mg/dL, whole years and recorded sex.
 * Source: Inker et al. 2021, New England Journal of Medicine 385:1737, CKD-EPI creatinine equation.
 */
export function ckdEpi2021(p: { creatinineMgDl: number; ageYears: number; sex: string }): number {
  const isFemale = p.sex === "female"
  const ratio = p.creatinineMgDl / (isFemale ? 0.7 : 0.9)
  const below = Math.min(ratio, 1) ** (isFemale ? -0.241 : -0.302)
  const above = Math.max(ratio, 1) ** -1.2
  return 142 * below * above * 0.9938 ** p.ageYears * (isFemale ? 1.012 : 1)
}

/** Was an inpatient or emergency visit of the patient open on the day? */
function isInHospital(visits: Visit[], day: Day): boolean {
  return visits.some((visit) => {
    if (visit.kind !== "inpatient" && visit.kind !== "emergency") return false
    return visit.startedOn <= day && day <= lastDayOf(visit, visits)
  })
}

function lastDayOf(visit: Visit, visits: Visit[]): Day {
  if (visit.endedOn !== null) return visit.endedOn
  if (visit.kind === "emergency") return visit.startedOn
  const nextVisits = visits
    .filter((other) => other.kind === "office" || other.kind === "telehealth")
    .map((other) => other.startedOn)
    .filter((start) => start > visit.startedOn)
  return Math.min(visit.startedOn + 29, ...nextVisits.map((start) => start - 1))
}

function meanValue(labs: Lab[]): Exact {
  return mean(labs.map((lab) => lab.value))
}
