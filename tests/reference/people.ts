import type { Day } from "./day"
import { countedCourses, type Course } from "./drugs"
import type { Allergy, DietRecord, Facts, Lab, PatientRecord, Problem, Reading, Visit } from "./facts"

/** One person of the clinic with every fact that is theirs, those of records merged into theirs included. */
export type Person = {
  patientId: string
  birth: Day
  sex: string
  registeredOn: Day
  leftOn: Day | null
  diedOn: Day | null
  visits: Visit[]
  /** The days of office and telehealth visits with a dietitian. */
  dietitianDays: Day[]
  readings: Reading[]
  labs: Lab[]
  courses: Course[]
  problems: Problem[]
  allergies: Allergy[]
  diet: DietRecord[]
}

/** The people behind the records: merged records folded into the one they end in, test patients left out. */
export function peopleOf(facts: Facts): Person[] {
  const records = new Map(facts.patients.map((record) => [record.patientId, record]))
  const testIds = new Set(facts.patients.filter((record) => record.isTest).map((record) => record.patientId))
  const dietitians = facts.staff.filter(({ role }) => role === "dietitian").map(({ staffId }) => staffId)
  function isWithDietitian({ kind, clinicianId }: Visit): boolean {
    return (
      (kind === "office" || kind === "telehealth") && clinicianId !== null && dietitians.includes(clinicianId)
    )
  }
  function ofEveryone<Fact extends { patientId: string; content: string }>(
    all: Fact[],
  ): (record: PatientRecord) => Fact[] {
    const factsBySurvivor = new Map<string, Fact[]>()
    for (const fact of all.filter(({ patientId }) => !testIds.has(patientId))) {
      const survivor = survivorOf(fact.patientId, records)
      const facts = factsBySurvivor.get(survivor) ?? []
      facts.push(fact)
      factsBySurvivor.set(survivor, facts)
    }
    return ({ patientId }) => withoutRepeatsOfOtherRecords(factsBySurvivor.get(patientId) ?? [])
  }
  const visitsOf = ofEveryone(facts.visits)
  const readingsOf = ofEveryone(facts.readings)
  const labsOf = ofEveryone(facts.labs)
  const ordersOf = ofEveryone(facts.orders)
  const problemsOf = ofEveryone(facts.problems)
  const allergiesOf = ofEveryone(facts.allergies)
  const dietOf = ofEveryone(facts.diet)

  return facts.patients
    .filter((record) => !record.isTest && survivorOf(record.patientId, records) === record.patientId)
    .map((record) => {
      const visits = visitsOf(record)
      return {
        patientId: record.patientId,
        birth: record.birth,
        sex: record.sex,
        registeredOn: record.registeredOn,
        leftOn: record.leftOn,
        diedOn: record.diedOn,
        visits,
        dietitianDays: visits.filter(isWithDietitian).map((visit) => visit.startedOn),
        readings: readingsOf(record),
        labs: labsOf(record),
        courses: countedCourses(ordersOf(record)),
        problems: problemsOf(record),
        allergies: allergiesOf(record),
        diet: dietOf(record),
      }
    })
}

/** The end of a chain of merges. A link to itself, round a circle or to nobody counts as no link. */
function survivorOf(patientId: string, records: Map<string, PatientRecord>): string {
  const next = records.get(patientId)?.mergedInto
  if (next === null || next === undefined || !records.has(next) || leadsBackTo(patientId, records))
    return patientId
  return survivorOf(next, records)
}

function leadsBackTo(patientId: string, records: Map<string, PatientRecord>): boolean {
  let at = records.get(patientId)?.mergedInto
  for (let steps = 0; at && steps < records.size; steps += 1) {
    if (at === patientId) return true
    at = records.get(at)?.mergedInto
  }
  return false
}

/**
 * Facts that two records of one person both brought count once. Equal facts within one record stay as many
 * as that record has of them: two readings of 128/76 at noon are two readings.
 */
function withoutRepeatsOfOtherRecords<Fact extends { patientId: string; content: string }>(
  facts: Fact[],
): Fact[] {
  const kept: Fact[] = []
  const countByRecordAndContent = new Map<string, number>()
  const keptByContent = new Map<string, number>()
  for (const fact of facts) {
    const place = `${fact.patientId}\u0000${fact.content}`
    const nth = (countByRecordAndContent.get(place) ?? 0) + 1
    countByRecordAndContent.set(place, nth)
    const alreadyKept = keptByContent.get(fact.content) ?? 0
    if (nth <= alreadyKept) continue
    keptByContent.set(fact.content, alreadyKept + 1)
    kept.push(fact)
  }
  return kept
}
