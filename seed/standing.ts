import { addMonths, type Day } from "./calendar"
import type { Fate } from "./fate"
import type { DrugClass } from "./formulary"
import type { Notes } from "./life"
import type { ToldLife } from "./tell-life"

/**
 * Where one person stands on a day, by the generator's own count: simpler than the definitions, close enough to
 * tune the clinic by. Null means not known. Pressures in mmHg, function in mL/min/1.73 m2, ratios in mg/g.
 */
export type StandingByCount = {
  isInPanel: boolean
  isApart: boolean
  hasCkd: boolean
  site: "Northgate" | "Riverside"
  egfr: number | null
  acr: number | null
  isAlbuminConfirmed: boolean
  isAtTarget: boolean | null
  isUnder140: boolean | null
  isMeasured: boolean
  hasHypertension: boolean
  hasDiabetes: boolean
  ageYears: number
  classes: number
  isOnRas: boolean
  wasEverOnRas: boolean
  potassium: number | null
  hasUrineInYear: boolean
  hasEgfrInYear: boolean
  hasHomeInYear: boolean
  hasSodiumInYear: boolean
  sodiumThisMonth: number | null
}

export function standingOn({ life, fate }: ToldLife, day: Day): StandingByCount {
  const { notes, person } = life
  const within = (months: number) => {
    const from = addMonths(day, -months)
    return (event: { day: Day }) => event.day > from && event.day <= day
  }
  const inYear = within(12)
  const inTwoYears = within(24)
  const inThreeYears = within(36)
  const inVisitMonths = within(18)
  const inMonth = within(1)
  const egfr = notes.egfr.findLast(inTwoYears)?.egfr ?? null
  const urine = notes.urine.findLast(inTwoYears) ?? null
  const isAlbuminConfirmed =
    urine !== null &&
    urine.acr >= 30 &&
    (urine.acr >= 620 ||
      notes.urine.some((other) => inThreeYears(other) && other.acr >= 30 && other.day <= urine.day - 90))
  const active = notes.courses.filter((course) => course.from <= day && day < course.to)
  const counted = pressureOn(notes, day)
  const lowest = latestLowest(notes.office.findLast(inYear), notes.home.findLast(inYear))
  const atFoods = notes.sodium.filter((record) => record.series === "counted days" && inMonth(record))
  return {
    isInPanel:
      isHere(fate, day) &&
      person.registered <= day &&
      ageOn(person.birth, day) >= 18 &&
      notes.visits.some((visit) => visit.isCounted && inVisitMonths(visit)),
    isApart:
      isSince(notes.dialysisFrom, day) ||
      isSince(notes.transplantFrom, day) ||
      isSince(notes.palliativeFrom, day),
    hasCkd: (egfr !== null && egfr < 59.5) || isAlbuminConfirmed,
    site: person.site,
    egfr,
    acr: urine?.acr ?? null,
    isAlbuminConfirmed,
    isAtTarget: counted ? counted.isAtTarget : null,
    isUnder140: lowest ? lowest.lowestSystolic < 140 && lowest.lowestDiastolic < 90 : null,
    isMeasured: counted !== null,
    hasHypertension: person.hasHypertension,
    hasDiabetes: person.hasDiabetes,
    ageYears: ageOn(person.birth, day),
    classes: new Set<DrugClass>(active.flatMap((course) => [...course.classes])).size,
    isOnRas: active.some((course) => course.isAceOrArb),
    wasEverOnRas: notes.courses.some((course) => course.isAceOrArb && course.from <= day),
    potassium: notes.potassium.findLast(inYear)?.mmol ?? null,
    hasUrineInYear: notes.urine.some(inYear),
    hasEgfrInYear: notes.egfr.some(inYear),
    hasHomeInYear: notes.home.some((average) => average.isValid && inYear(average)),
    hasSodiumInYear: notes.sodium.some(inYear),
    sodiumThisMonth:
      atFoods.length === 0 ? null : atFoods.reduce((sum, record) => sum + record.mg, 0) / atFoods.length,
  }
}

type Lowest = { day: Day; lowestSystolic: number; lowestDiastolic: number }

function latestLowest(office: Lowest | undefined, home: Lowest | undefined): Lowest | undefined {
  if (!office || !home) return office ?? home
  return home.day > office.day ? home : office
}

function pressureOn(notes: Notes, day: Day): { isAtTarget: boolean } | null {
  const from = addMonths(day, -12)
  const fresh = day - 90
  const office = notes.office.findLast((taken) => taken.day > from && taken.day <= day)
  const home = notes.home.findLast((average) => average.isValid && average.day > from && average.day <= day)
  const ambulatory = notes.ambulatory.findLast((taken) => taken.day > from && taken.day <= day)
  const out =
    ambulatory && (!home || ambulatory.day >= home.day)
      ? { ...ambulatory, limits: [125, 75] as const }
      : home
        ? { ...home, limits: [130, 80] as const }
        : null
  if (out && (out.day > fresh || !office)) return { isAtTarget: isBelow(out, out.limits) }
  return office ? { isAtTarget: isBelow(office, [130, 80]) } : null
}

function isBelow(
  pressure: { systolic: number; diastolic: number },
  limits: readonly [number, number],
): boolean {
  return Math.floor(pressure.systolic + 0.5) < limits[0] && Math.floor(pressure.diastolic + 0.5) < limits[1]
}

function isHere(fate: Fate, day: Day): boolean {
  return (fate.left === null || fate.left > day) && (fate.died === null || fate.died > day)
}

function isSince(from: Day | null, day: Day): boolean {
  return from !== null && from <= day
}

function ageOn(birth: Day, day: Day): number {
  return Math.floor((day - birth) / 365.25)
}
