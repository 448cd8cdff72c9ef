/*
 * The definitions once more, slow and plain: patient by patient over plain arrays, read straight from the files of an
 * extract. It exists only to check the product's SQL by an independent route. It shares no code, list or query with
 * the product, and nothing but tests may use it. Default settings only.
 */
import { filesInFolder, type OpenFile } from "./csv"
import { day, dayToText, type Day } from "./day"
import { dietAt, sodiumRecords, type SodiumRecord } from "./diet"
import { classesOn, countedCourses, isOnAceInhibitorOrArb, newestClassStart, rasHistory } from "./drugs"
import { toNumber, type Exact } from "./exact"
import { egfrDays, isLowForThreeMonths, latestEgfr, stageOf } from "./kidney"
import { latestPotassium } from "./lab-results"
import { measuresOf, type Measure } from "./measures"
import { isInPanel } from "./panel"
import { peopleOf, type Person } from "./people"
import { categoryOf, representativePressure } from "./pressure"
import { hasProblem, isOnDialysis } from "./problems"
import { readExtract } from "./read-extract"
import { standingsOf } from "./standings"
import { albuminuria, decidingResult, latestAcr, urineCategory, urineResults } from "./urine"

export type ReferencePatient = ReturnType<typeof patientOn>

export type ReferenceAnswer = { patients: ReferencePatient[]; measures: Measure[] }

/** The answer for one day of one extract folder. Days are YYYY-MM-DD; `importDay` is the day of the import. */
export function computeReference(question: {
  folder: string
  on: string
  timeZone: string
  importDay: string
}): ReferenceAnswer {
  return openReference({ ...question, open: filesInFolder(question.folder) })(question.on)
}

/** As computeReference for one extract and any number of days. */
export function openReference(extract: {
  open: OpenFile
  timeZone: string
  importDay: string
}): (on: string) => ReferenceAnswer {
  const people = peopleOf(readExtract({ ...extract, importDay: day(extract.importDay) }).facts)
  return (on) => answerOn(people, day(on))
}

function answerOn(people: Person[], on: Day): ReferenceAnswer {
  const panel = people.filter((person) => isInPanel(person, on))
  const sodium: SodiumRecord[][] = panel.map(sodiumRecords)
  const patients = panel
    .map((person) => patientOn(person, on))
    .sort((a, b) => (a.patient_id < b.patient_id ? -1 : 1))
  return { patients, measures: measuresOf(patients, sodium, on) }
}

function patientOn(person: Person, on: Day) {
  const pressure = representativePressure(person.readings, on)
  const courses = countedCourses(person.orders)
  const classes = classesOn(courses, on)
  const isOnRasBlocker = isOnAceInhibitorOrArb(courses, on)
  const days = egfrDays(person, on)
  const egfr = latestEgfr(days, on)?.egfr ?? null
  const urine = urineResults(person.labs, on)
  const acr = latestAcr(urine, on)
  const deciding = decidingResult(urine, on)
  const albumin = albuminuria(urine, on)
  const diet = dietAt(sodiumRecords(person), on)
  const isCkd =
    isLowForThreeMonths(days, on) ||
    albumin === "confirmed" ||
    hasProblem(person, "ckd", on) ||
    isOnDialysis(person, on) ||
    hasProblem(person, "transplant", on)

  return {
    patient_id: person.patientId,
    systolic: pressure?.systolic ?? null,
    diastolic: pressure?.diastolic ?? null,
    bp_source: pressure?.source ?? null,
    bp_on: pressure ? dayToText(pressure.on) : null,
    category: pressure ? categoryOf(pressure) : null,
    classes: classes.map(String),
    egfr,
    g: egfr === null ? null : stageOf(egfr),
    acr: numberOrNull(acr?.value ?? null),
    a: deciding ? urineCategory(deciding) : null,
    albuminuria: albumin,
    ckd: isCkd,
    on_ras_blocker: isOnRasBlocker,
    ras_history: rasHistory(courses, on),
    sodium_mg: numberOrNull(diet.sodiumMg),
    potassium_mg: numberOrNull(diet.potassiumMg),
    standings: standingsOf({
      ...{ person, on, pressure, classes, egfr, isCkd, isOnRasBlocker, urine },
      newestClassOn: newestClassStart(courses, on),
      albuminuria: albumin,
      potassium: latestPotassium(person.labs, on),
    }),
  }
}

function numberOrNull(value: Exact | null): number | null {
  return value === null ? null : toNumber(value)
}
