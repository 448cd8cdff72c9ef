import type { Day } from "./day"
import type { Exact } from "./exact"

/** What one extract says, after the row rules; `patientId` is the id a fact came with. */
export type Facts = {
  staff: StaffMember[]
  patients: PatientRecord[]
  visits: Visit[]
  readings: Reading[]
  labs: Lab[]
  orders: Order[]
  problems: Problem[]
  allergies: Allergy[]
  diet: DietRecord[]
}

export type StaffMember = { staffId: string; role: string }

export type PatientRecord = {
  patientId: string
  birth: Day
  sex: string
  registeredOn: Day
  leftOn: Day | null
  diedOn: Day | null
  mergedInto: string | null
  isTest: boolean
}

/** `content` is everything but the patient and the row's own id, to find the same fact under two merged ids. */
type Fact = { patientId: string; content: string }

export type Visit = Fact & { kind: string; startedOn: Day; endedOn: Day | null; clinicianId: string | null }

export type Reading = Fact & {
  instant: number
  day: Day
  setting: string
  systolic: Exact
  diastolic: Exact
}

export type Lab = Fact & {
  instant: number
  day: Day
  test: string
  comparator: "" | "<" | "<=" | ">" | ">="
  /** In the standard unit: mg/dL, mL/min/1.73 m2, mg/g, mmol/L, mmol/d. */
  value: Exact
  reported: Exact
  isPerMillimole: boolean
  isPreliminary: boolean
  isHaemolysed: boolean
}

export type Order = Fact & {
  drug: string
  codeSystem: string | null
  code: string | null
  isAsNeeded: boolean
  route: string
  startedOn: Day
  stoppedOn: Day | null
  supplyDays: Exact | null
  dose: Exact | null
  doseUnit: string | null
  timesPerDay: Exact | null
}

export type Problem = Fact & {
  codeSystem: string | null
  code: string | null
  onsetOn: Day | null
  recordedOn: Day | null
  resolvedOn: Day | null
  isConfirmed: boolean
}

export type Allergy = Fact & {
  substance: string
  reaction: string | null
  recordedOn: Day | null
}

export type DietRecord = Fact & { day: Day; method: string; sodiumMg: Exact; potassiumMg: Exact | null }
