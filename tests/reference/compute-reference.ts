/*
 * The definitions once more, slow and plain: patient by patient over plain arrays, read straight from the files of an
 * extract. It exists only to check the product's SQL by an independent route. It shares no code, list or query with
 * the product, and nothing but tests may use it. Default settings only.
 */
import { clinicalOn, type Clinical } from "./clinical"
import { filesInFolder, type OpenFile } from "./csv"
import { day, dayToText, type Day } from "./day"
import { dietAt, sodiumRecords, type SodiumRecord } from "./diet"
import { toNumber, type Exact } from "./exact"
import { stageOf } from "./kidney"
import { measuresOf, type Measure } from "./measures"
import { isInPanel } from "./panel"
import { peopleOf, type Person } from "./people"
import { categoryOf } from "./pressure"
import { isOnAceInhibitorOrArb, rasHistory } from "./ras-blockers"
import { readExtract } from "./read-extract"
import { decidedInMonth, standingsOf } from "./standings"
import { decidingResult, latestAcr, urineCategory } from "./urine"

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
  const clinicals = panel.map((person) => clinicalOn(person, on))
  const patients = clinicals.map(patientOn)
  const measures = measuresOf({ patients, ofMonth: clinicals.map(decidedInMonth), sodium, on })
  return { patients: patients.sort((a, b) => (a.patient_id < b.patient_id ? -1 : 1)), measures }
}

function patientOn(clinical: Clinical) {
  const { person, on, pressure, egfr, urine } = clinical
  const acr = latestAcr(urine, on)
  const deciding = decidingResult(urine, on)
  const diet = dietAt(clinical.sodium, on)

  return {
    patient_id: person.patientId,
    systolic: pressure?.systolic ?? null,
    diastolic: pressure?.diastolic ?? null,
    bp_source: pressure?.source ?? null,
    bp_on: pressure ? dayToText(pressure.on) : null,
    category: pressure ? categoryOf(pressure) : null,
    classes: clinical.classes.map(String),
    egfr: egfr?.egfr ?? null,
    g: egfr === null ? null : stageOf(egfr.egfr),
    acr: numberOrNull(acr?.value ?? null),
    a: deciding ? urineCategory(deciding) : null,
    albuminuria: clinical.albuminuria,
    ckd: clinical.isCkd,
    on_ras_blocker: isOnAceInhibitorOrArb(clinical.courses, on),
    ras_history: rasHistory(clinical.courses, on),
    sodium_mg: numberOrNull(diet.sodiumMg),
    potassium_mg: numberOrNull(diet.potassiumMg),
    standings: standingsOf(clinical),
  }
}

function numberOrNull(value: Exact | null): number | null {
  return value === null ? null : toNumber(value)
}
