import type { Day } from "./calendar"
import type { Period } from "./clinic"
import type { Rows } from "./extract-columns"
import type { Drug, DrugClass } from "./formulary"
import type { Kidney } from "./kidney"
import type { Person } from "./person"
import type { Random } from "./random"

/** One stretch of one drug at one dose: what becomes an order, or a run of refilled orders. */
export type Course = {
  drug: Drug
  step: number
  startedOn: Day
  /** The text the record uses from the start of this course to its end. */
  text: string
}

/**
 * What the generator knows of a life without reading its own rows back: the base of its own count.
 * Pressures are in mmHg, function in mL/min/1.73 m2, ratios in mg/g, potassium in mmol/L, sodium in mg a day.
 */
export type Notes = {
  visits: { day: Day; isCounted: boolean }[]
  office: { day: Day; systolic: number; diastolic: number; lowestSystolic: number; lowestDiastolic: number }[]
  /** Weeks at home: the mean, and the lowest of the last day. */
  home: {
    day: Day
    systolic: number
    diastolic: number
    lowestSystolic: number
    lowestDiastolic: number
    isValid: boolean
  }[]
  ambulatory: { day: Day; systolic: number; diastolic: number }[]
  egfr: { day: Day; egfr: number }[]
  urine: { day: Day; acr: number }[]
  potassium: { day: Day; mmol: number }[]
  sodium: { day: Day; mg: number; series: "counted days" | "food frequency" | "24-hour urine" }[]
  courses: { classes: readonly DrugClass[]; isAceOrArb: boolean; from: Day; to: Day }[]
  rasStarts: { day: Day; checkedAfterDays: number | null }[]
  dialysisFrom: Day | null
  transplantFrom: Day | null
  palliativeFrom: Day | null
}

/** One invented person's life while it is being told, and what has been told so far. */
export type Life = {
  person: Person
  period: Period
  random: Random
  kidney: Kidney
  rows: Rows
  notes: Notes
  /** Open courses of counted drugs. */
  regimen: Course[]
  /** Day an SGLT2 inhibitor was started, which slows decline and lowers albumin. */
  sglt2From: Day | null
  /** Untreated, in the office's absence: mmHg. */
  untreated: { systolic: number; diastolic: number }
  /** Usual intake before any programme, mg of sodium a day. */
  usualSodiumMg: number
  isInDietProgramme: boolean
  homeFrom: Day | null
  homeUntil: Day
  dietFrom: Day | null
  dietUntil: Day
  dialysisFrom: Day | null
  transplantFrom: Day | null
  palliativeFrom: Day | null
  /** Why an ACE inhibitor or ARB is not to be tried again, if it is not. */
  rasBarrier: { aceInhibitor: boolean; both: boolean }
  rasStoppedOn: Day | null
  sequence: number
}

export function noNotes(): Notes {
  return {
    visits: [],
    office: [],
    home: [],
    ambulatory: [],
    egfr: [],
    urine: [],
    potassium: [],
    sodium: [],
    courses: [],
    rasStarts: [],
    dialysisFrom: null,
    transplantFrom: null,
    palliativeFrom: null,
  }
}

/** Ids within one person: V000017-03. */
export function nextId(life: Life, prefix: string): string {
  life.sequence++
  return `${prefix}${String(life.person.number).padStart(6, "0")}-${life.sequence}`
}

export function isOnClass(life: Life, drugClass: DrugClass): boolean {
  return life.regimen.some((course) => course.drug.classes.includes(drugClass))
}

export function isOnAceOrArb(life: Life): boolean {
  return life.regimen.some((course) => course.drug.rasKind !== null)
}

export function classCount(life: Life): number {
  return new Set(life.regimen.flatMap((course) => course.drug.classes)).size
}

export function treatmentsOf(life: Life, day: Day) {
  return {
    isOnRas: isOnAceOrArb(life),
    isOnMra: isOnClass(life, "mineralocorticoid_antagonist"),
    isOnDiuretic: isOnClass(life, "diuretic"),
    isOnSglt2: life.sglt2From !== null && life.sglt2From <= day,
  }
}
