import { addMonths, textOf, type Day } from "./calendar"
import type { Period } from "./clinic"
import { standingOn, type StandingByCount } from "./standing"
import type { ToldLife } from "./tell-life"

/** A share with the two counts behind it. */
export type Share = { met: number; of: number }
export type Mean = { sum: number; n: number }

/** The clinic on one day, by the generator's own count. */
export type DayTally = {
  on: string
  panel: number
  ckd: number
  apart: Share
  atTarget: Share
  under140: Share
  notMeasured: Share
  resistant: Share
  rasAmongA3: Share
  rasAmongConfirmed: Share
  everRasAmongA3: Share
  acrInYear: Share
  egfrInYear: Share
  highPotassiumOnRas: Share
  homeInYear: Share
  sodiumInYear: Share
  sodium: { Northgate: Mean; Riverside: Mean }
  hypertension: Share
  diabetes: Share
  age: Mean
  g: Record<"G1-2" | "G3a" | "G3b" | "G4" | "G5", number>
  a: Record<"A1" | "A2" | "A3", number>
}

export type Tally = {
  days: readonly DayTally[]
  joinedPerMonth: number
  leftPerMonth: number
  checkedAfterStart: Share
  deathsPerYear: Share
}

/** Collects the generator's own count, one life at a time. */
export function openTally(period: Period) {
  const days = asOfDays(period).map((day) => ({ day, tally: emptyDay(day) }))
  const checkedAfterStart: Share = { met: 0, of: 0 }
  let joined = 0
  let left = 0
  let died = 0
  let patientDays = 0

  const count = (told: ToldLife) => {
    for (const { day, tally } of days) addTo(tally, standingOn(told, day))
    const { person, notes } = told.life
    const from = Math.max(period.start, person.registered)
    patientDays += Math.max(0, told.fate.lastDay - from)
    if (person.registered >= period.start) joined++
    if (told.fate.lastDay < period.through) left++
    if (told.fate.died !== null) died++
    for (const start of notes.rasStarts) {
      if (start.day < period.start || start.day > period.through - 28) continue
      checkedAfterStart.of++
      if (start.checkedAfterDays !== null && start.checkedAfterDays <= 28) checkedAfterStart.met++
    }
  }

  const close = (): Tally => {
    const patientMonths = Math.max(1, patientDays / 30.44)
    return {
      days: days.map((entry) => entry.tally),
      joinedPerMonth: joined / patientMonths,
      leftPerMonth: left / patientMonths,
      checkedAfterStart,
      deathsPerYear: { met: died, of: Math.max(1, Math.round(patientDays / 365.25)) },
    }
  }
  return { count, close }
}

/** Every sixth month back from the last day, as far as the story goes. */
function asOfDays(period: Period): Day[] {
  const days = [36, 30, 24, 18, 12, 6, 0].map((months) => addMonths(period.through, -months))
  return days.filter((day) => day > period.start)
}

function addTo(tally: DayTally, standing: StandingByCount): void {
  if (!standing.isInPanel) return
  tally.panel++
  add(tally.apart, standing.isApart)
  add(tally.hypertension, standing.hasHypertension)
  add(tally.diabetes, standing.hasDiabetes)
  tally.age.sum += standing.ageYears
  tally.age.n++
  add(tally.homeInYear, standing.hasHomeInYear)
  add(tally.sodiumInYear, standing.hasSodiumInYear)
  if (standing.sodiumThisMonth !== null) {
    tally.sodium[standing.site].sum += standing.sodiumThisMonth
    tally.sodium[standing.site].n++
  }
  if (standing.isOnRas && standing.potassium !== null) add(tally.highPotassiumOnRas, standing.potassium > 5.5)
  if (standing.isApart) return
  addGroups(tally, standing)
  if (standing.hasHypertension && standing.ageYears <= 85) add(tally.under140, standing.isUnder140 === true)
  if (!standing.hasCkd) return
  tally.ckd++
  add(tally.atTarget, standing.isAtTarget === true)
  add(tally.notMeasured, !standing.isMeasured)
  add(tally.acrInYear, standing.hasUrineInYear)
  add(tally.egfrInYear, standing.hasEgfrInYear)
  // Apparent resistance as CRIC counts it: 140/90 or higher on three classes, or four or more at any pressure.
  if (standing.classes > 0 && standing.isUnder140 !== null) {
    add(tally.resistant, standing.classes >= 4 || (standing.classes === 3 && !standing.isUnder140))
  }
  if (standing.acr !== null && standing.acr > 300) {
    add(tally.rasAmongA3, standing.isOnRas)
    add(tally.everRasAmongA3, standing.wasEverOnRas)
  }
  if (standing.isAlbuminConfirmed) add(tally.rasAmongConfirmed, standing.isOnRas)
}

function addGroups(tally: DayTally, { egfr, acr }: StandingByCount): void {
  if (egfr !== null) {
    const whole = Math.round(egfr)
    tally.g[whole >= 60 ? "G1-2" : whole >= 45 ? "G3a" : whole >= 30 ? "G3b" : whole >= 15 ? "G4" : "G5"]++
  }
  if (acr !== null) tally.a[acr < 30 ? "A1" : acr <= 300 ? "A2" : "A3"]++
}

function add(share: Share, isMet: boolean): void {
  share.of++
  if (isMet) share.met++
}

function emptyDay(day: Day): DayTally {
  const share = (): Share => ({ met: 0, of: 0 })
  const mean = (): Mean => ({ sum: 0, n: 0 })
  return {
    on: textOf(day),
    panel: 0,
    ckd: 0,
    apart: share(),
    atTarget: share(),
    under140: share(),
    notMeasured: share(),
    resistant: share(),
    rasAmongA3: share(),
    rasAmongConfirmed: share(),
    everRasAmongA3: share(),
    acrInYear: share(),
    egfrInYear: share(),
    highPotassiumOnRas: share(),
    homeInYear: share(),
    sodiumInYear: share(),
    sodium: { Northgate: mean(), Riverside: mean() },
    hypertension: share(),
    diabetes: share(),
    age: mean(),
    g: { "G1-2": 0, G3a: 0, G3b: 0, G4: 0, G5: 0 },
    a: { A1: 0, A2: 0, A3: 0 },
  }
}
