import { addMonths, textOf, type Day } from "./calendar"
import { nephrologistsAt, retiredClinicianId, type Period, type Site } from "./clinic"
import type { Row } from "./extract-columns"
import { backgrounds, type Background } from "./names"
import type { Random } from "./random"

/** What stays with an invented person for life: who they are and what they tend to. */
export type Person = {
  id: string
  number: number
  background: Background
  sex: "female" | "male" | "unknown"
  /** The sex the body follows, also where the record says unknown. */
  bodySex: "female" | "male"
  birth: Day
  site: Site
  clinicianId: string | null
  zeal: number
  urineHabit: number
  registered: Day
  hasHypertension: boolean
  hasDiabetes: boolean
  hasType1: boolean
  hasHeartFailure: boolean
  hasAtrialFibrillation: boolean
  /** Share of the drugs really taken. */
  adherence: number
  /** Between visits, relative to the usual. */
  pace: number
  telehealthShare: number
  /** Office minus out-of-office pressure, mmHg. */
  officeOffset: { systolic: number; diastolic: number }
  /** How much of the usual effect each drug has. */
  responsiveness: number
  refills: boolean
}

export function patientId(number: number): string {
  return `LK-${String(number).padStart(6, "0")}`
}

export function drawPerson(options: { number: number; period: Period; random: Random }): Person {
  const { number, period, random } = options
  const background = random.weigh(backgrounds)
  const bodySex = random.chance(0.46) ? "female" : "male"
  const registered = drawRegistration(period, random)
  const ageYears = drawAge(random)
  const birth = addMonths(Math.max(registered, period.start), -12 * ageYears) - random.whole(0, 364)
  const site: Site = random.chance(0.56) ? "Northgate" : "Riverside"
  const clinician = random.pick(nephrologistsAt(site))
  const isAssigned = random.chance(0.975)
  const isRetired = random.chance(0.25)
  const hasDiabetes = random.chance(0.43)
  return {
    id: patientId(number),
    number,
    background,
    sex: random.chance(0.002) ? "unknown" : bodySex,
    bodySex,
    birth,
    site,
    clinicianId: isAssigned ? clinician.id : isRetired ? retiredClinicianId : null,
    zeal: clinician.zeal,
    urineHabit: clinician.urineHabit,
    registered,
    hasHypertension: random.chance(ageYears < 40 ? 0.7 : 0.9),
    hasDiabetes,
    hasType1: hasDiabetes && random.chance(ageYears < 45 ? 0.35 : 0.04),
    hasHeartFailure: random.chance(ageYears > 60 ? 0.15 : 0.04),
    hasAtrialFibrillation: random.chance(ageYears > 65 ? 0.15 : 0.03),
    adherence: random.chance(0.14) ? random.between(0.25, 0.6) : random.between(0.82, 1),
    pace: Math.min(
      2.6,
      Math.exp(random.normal(0, 0.22)) * (random.chance(0.06) ? random.between(1.5, 2.2) : 1),
    ),
    telehealthShare: random.chance(0.055) ? 0.9 : random.between(0, 0.2),
    officeOffset: drawOfficeOffset(random),
    responsiveness: Math.max(0.4, random.normal(1, 0.22)),
    refills: random.chance(site === "Riverside" ? 0.5 : 0.22),
  }
}

/** Six in ten were there before the period began; the rest register evenly through it. */
function drawRegistration(period: Period, random: Random): Day {
  const months = (period.through - period.start) / 30.44
  const isThereBefore = random.chance(1 / (1 + 0.0145 * months))
  if (isThereBefore) return period.start - 30 - Math.floor(random.between(0, 9 * 365))
  return random.whole(period.start, period.through - 1)
}

/** Referred adults: a few young ones, most over 60; now and then somebody not yet 18. */
function drawAge(random: Random): number {
  if (random.chance(0.004)) return random.whole(16, 17)
  for (;;) {
    const age = Math.round(random.normal(68.5, 13.5))
    if (age >= 18 && age <= 97) return age
  }
}

/** Office minus home: +9.0 +- 15.1 / +7.0 +- 10.0 in one CKD cohort; part of that spread is noise, drawn elsewhere. */
function drawOfficeOffset(random: Random): { systolic: number; diastolic: number } {
  const shared = random.normal(0, 1)
  return { systolic: 4 + 7.5 * shared, diastolic: 2 + 3.4 * shared + random.normal(0, 1.5) }
}

const contactWays = [
  { way: "phone", weight: 40 },
  { way: "text", weight: 22 },
  { way: "letter", weight: 12 },
  { way: "portal", weight: 14 },
  { way: "email", weight: 8 },
  { way: "", weight: 4 },
] as const

/** The identity row, with the gaps real ones have. `end` says how the person left, when they did. */
export function patientRow(options: {
  person: Person
  random: Random
  end: { left: Day | null; reason: string; died: Day | null }
}): Row<"patients"> {
  const { person, random, end } = options
  const names = person.background[person.bodySex]
  const given = random.pick(names)
  const family = random.pick(person.background.family)
  const language = random.weigh(person.background.languages).tag
  const speaksEnglish = language === "en"
  return {
    patient_id: person.id,
    given_name: random.chance(0.06) ? `${given} ${random.pick(names)}` : given,
    family_name: family,
    birth_date: textOf(person.birth),
    sex: person.site === "Northgate" ? person.sex : capital(person.sex),
    language: random.chance(0.03) ? "" : language,
    interpreter_needed: speaksEnglish ? (random.chance(0.1) ? "" : "no") : random.chance(0.55) ? "yes" : "no",
    race: drawRace(person.background, random),
    ethnicity: drawAnswer(person.background.ethnicity, random),
    phone: random.chance(0.05)
      ? ""
      : `+1 555 01${random.whole(0, 9)} ${String(random.whole(0, 9999)).padStart(4, "0")}`,
    email: random.chance(0.42) ? `${plain(given)}.${plain(family)}.${person.number}@mail.example` : "",
    postal_code: `00${random.whole(101, 164)}`,
    preferred_contact: random.weigh(contactWays).way,
    do_not_contact: random.chance(0.018) ? "yes" : random.chance(0.5) ? "no" : "",
    clinician_id: person.clinicianId ?? "",
    site: random.chance(0.012) ? "" : person.site,
    registered_on: textOf(person.registered),
    left_on: end.left === null ? "" : textOf(end.left),
    left_reason: end.reason,
    died_on: end.died === null ? "" : textOf(end.died),
  }
}

function drawRace(background: Background, random: Random): string {
  if (random.chance(0.02)) return `${background.race};${random.pick(backgrounds).race}`
  if (random.chance(0.1)) return background.raceCode
  return drawAnswer(background.race, random)
}

/** Some were never asked, some were asked and declined. */
function drawAnswer(answer: string, random: Random): string {
  if (random.chance(0.13)) return ""
  return random.chance(0.05) ? "declined" : answer
}

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1)
}

function plain(name: string): string {
  return name
    .normalize("NFD")
    .replace(/[^A-Za-z]/g, "")
    .toLowerCase()
}
