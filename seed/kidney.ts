import { wholeYearsBetween, type Day } from "./calendar"
import type { Person } from "./person"
import type { Random } from "./random"

/** The kidneys of one invented person: where they stood on `anchor`, and how they change from there. */
export type Kidney = {
  anchor: Day
  egfrAtAnchor: number
  slopePerYear: number
  /** Natural logarithm of the urine albumin-to-creatinine ratio in mg/g, untreated, on `anchor`. */
  lnAcrAtAnchor: number
  acrGrowthPerYear: number
  potassiumTendency: number
  /** Lost for good in acute episodes, mL/min/1.73 m2. */
  lostEgfr: number
  /** Function at which this person starts dialysis. */
  dialysisAt: number
  /** PCR instead of ACR. */
  usesPcr: boolean
}

export type Treatments = { isOnRas: boolean; isOnMra: boolean; isOnDiuretic: boolean; isOnSglt2: boolean }

/**
 * Draws a starting point. The lower the function the more albumin, on average; the more albumin the faster the
 * decline. Shares of the categories follow the panel described beside the plausibility figures.
 */
export function drawKidney(options: { person: Person; anchor: Day; random: Random }): Kidney {
  const { person, anchor, random } = options
  const isDiabetic = person.hasDiabetes
  const lnEgfr = random.normal(Math.log(37.5), 0.48)
  const egfrAtAnchor = Math.min(105, Math.max(9, Math.exp(lnEgfr)))
  const lowFunction = (Math.log(37.5) - lnEgfr) / 0.48
  const lnAcr = random.normal(4.35 + 0.35 * lowFunction + (isDiabetic ? 0.45 : -0.3), 2.4)
  const lnAcrAtAnchor = lnAcr > 7.6 ? 7.6 + (lnAcr - 7.6) / 3 : lnAcr < 1 ? 1 + (lnAcr - 1) / 4 : lnAcr
  const albuminPull = lnAcrAtAnchor - Math.log(30)
  return {
    anchor,
    egfrAtAnchor,
    slopePerYear: Math.min(1.5, random.normal(-0.9 - 0.42 * Math.max(0, albuminPull), 1.4)),
    lnAcrAtAnchor,
    acrGrowthPerYear: random.normal(0.06, 0.1),
    potassiumTendency: random.normal(0, 0.34),
    lostEgfr: 0,
    dialysisAt: Math.max(6, random.normal(9, 1.4)),
    usesPcr: random.chance(person.site === "Northgate" ? 0.08 : 0.03),
  }
}

/** Function on a day in mL/min/1.73 m2, before measurement noise. A RAS blocker costs a few per cent at once. */
export function egfrOn(kidney: Kidney, day: Day, treatments: Treatments): number {
  const years = (day - kidney.anchor) / 365.25
  const protection = (treatments.isOnRas ? 0.12 : 0) + (treatments.isOnSglt2 ? 0.2 : 0)
  const slope = kidney.slopePerYear < 0 ? kidney.slopePerYear * (1 - protection) : kidney.slopePerYear
  const settled = kidney.egfrAtAnchor + slope * years - kidney.lostEgfr
  return Math.min(118, Math.max(5, settled * (treatments.isOnRas ? 0.96 : 1)))
}

/** Urine albumin-to-creatinine ratio in mg/g on a day, before the large day-to-day noise. */
export function acrOn(kidney: Kidney, day: Day, treatments: Treatments): number {
  const years = (day - kidney.anchor) / 365.25
  const drugs =
    (treatments.isOnRas ? -0.42 : 0) + (treatments.isOnSglt2 ? -0.3 : 0) + (treatments.isOnMra ? -0.2 : 0)
  return Math.min(9000, Math.exp(kidney.lnAcrAtAnchor + kidney.acrGrowthPerYear * years + drugs))
}

/** Serum potassium in mmol/L with its noise. */
export function drawPotassium(options: {
  kidney: Kidney
  egfr: number
  treatments: Treatments
  random: Random
}): number {
  const { kidney, egfr, treatments, random } = options
  const drugs =
    (treatments.isOnRas ? 0.2 : 0) +
    (treatments.isOnMra ? 0.22 : 0) +
    (treatments.isOnDiuretic ? -0.12 : 0) +
    (treatments.isOnSglt2 ? -0.08 : 0)
  const level = 4.61 + 0.009 * (50 - Math.min(90, egfr)) + drugs + kidney.potassiumTendency
  return Math.min(7.4, Math.max(2.9, random.normal(level, 0.33)))
}

/**
 * The serum creatinine in mg/dL at which CKD-EPI 2021 gives this eGFR: the equation solved for creatinine.
 * Source of the equation: Inker et al. 2021, New England Journal of Medicine, doi 10.1056/NEJMoa2102953.
 * Example: eGFR 60 in a woman aged 65 is about 1.03 mg/dL.
 */
export function creatinineMgDlFor(options: {
  egfr: number
  ageYears: number
  sex: "female" | "male"
}): number {
  const { egfr, ageYears, sex } = options
  const kappa = sex === "female" ? 0.7 : 0.9
  const alpha = sex === "female" ? -0.241 : -0.302
  const atKappa = 142 * power(0.9938, ageYears) * (sex === "female" ? 1.012 : 1)
  const ratio = egfr / atKappa
  return kappa * (ratio < 1 ? power(ratio, 1 / -1.2) : power(ratio, 1 / alpha))
}

/** The same equation the usual way round: eGFR in mL/min/1.73 m2, unrounded. Example: 1.03 mg/dL, woman, 65: about 60. */
export function egfrFor(options: {
  creatinineMgDl: number
  ageYears: number
  sex: "female" | "male"
}): number {
  const { creatinineMgDl, ageYears, sex } = options
  const kappa = sex === "female" ? 0.7 : 0.9
  const alpha = sex === "female" ? -0.241 : -0.302
  const ratio = creatinineMgDl / kappa
  const atKappa = 142 * power(0.9938, ageYears) * (sex === "female" ? 1.012 : 1)
  return atKappa * power(ratio, ratio < 1 ? alpha : -1.2)
}

/** A creatinine in mg/dL as a laboratory would find it on a day: function, age, and about 5 % within a person. */
export function drawCreatinine(options: { person: Person; egfr: number; day: Day; random: Random }): number {
  const { person, egfr, day, random } = options
  const ageYears = Math.max(18, wholeYearsBetween(person.birth, day))
  const exact = creatinineMgDlFor({ egfr, ageYears, sex: person.bodySex })
  return Math.min(20, Math.max(0.3, exact * Math.exp(random.normal(0, 0.05))))
}

function power(base: number, exponent: number): number {
  return Math.exp(exponent * Math.log(base))
}
