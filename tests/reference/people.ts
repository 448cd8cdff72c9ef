import type { Day } from "./day"
import type { Allergy, DietRecord, Facts, Lab, Order, PatientRecord, Problem, Reading, Visit } from "./facts"

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
  orders: Order[]
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
  function factsOf<Fact extends { patientId: string; content: string }>(
    all: Fact[],
    survivor: string,
  ): Fact[] {
    const own = all.filter(
      (fact) => !testIds.has(fact.patientId) && survivorOf(fact.patientId, records) === survivor,
    )
    return withoutRepeatsOfOtherRecords(own)
  }

  return facts.patients
    .filter((record) => !record.isTest && survivorOf(record.patientId, records) === record.patientId)
    .map((record) => ({
      patientId: record.patientId,
      birth: record.birth,
      sex: record.sex,
      registeredOn: record.registeredOn,
      leftOn: record.leftOn,
      diedOn: record.diedOn,
      visits: factsOf(facts.visits, record.patientId),
      dietitianDays: factsOf(facts.visits, record.patientId)
        .filter(isWithDietitian)
        .map((visit) => visit.startedOn),
      readings: factsOf(facts.readings, record.patientId),
      labs: factsOf(facts.labs, record.patientId),
      orders: factsOf(facts.orders, record.patientId),
      problems: factsOf(facts.problems, record.patientId),
      allergies: factsOf(facts.allergies, record.patientId),
      diet: factsOf(facts.diet, record.patientId),
    }))
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
