import { rejectIfBefore, required } from "./cells"
import type { Allergy, DietRecord, Order, PatientRecord, Problem, StaffMember, Visit } from "./facts"
import { contentOf, keyOf, patientOf, rejectOutside, type RowParser } from "./row-parser"

const roles = ["nephrologist", "dietitian", "coordinator", "nurse", "other"]
const visitKinds = ["office", "telehealth", "emergency", "inpatient", "dialysis"]
const reactions = "angioedema,anaphylaxis,cough,rash,hyperkalaemia,kidney injury,hypotension,other".split(",")
const methods = ["recall_24h", "food_record", "food_frequency"]

export const staffRows: RowParser<StaffMember> = {
  file: "staff.csv",
  columns: ["staff_id", "name", "role"],
  key: (cells) => keyOf([required(cells.text("staff_id"), "staff_id")]),
  fact: (cells) => {
    required(cells.text("name"), "name")
    const staffId = required(cells.text("staff_id"), "staff_id")
    return { fact: { staffId, role: required(cells.word("role", roles), "role") }, events: [] }
  },
}

export const patientRows: RowParser<PatientRecord> = {
  file: "patients.csv",
  columns: ["patient_id", "birth_date", "sex", "registered_on"],
  key: (cells) => keyOf([required(cells.text("patient_id"), "patient_id")]),
  fact: (cells) => {
    const birth = required(cells.date("birth_date"), "birth_date")
    const registeredOn = required(cells.eventDate("registered_on"), "registered_on")
    const leftOn = cells.date("left_on")
    const diedOn = cells.eventDate("died_on")
    rejectIfBefore(leftOn, registeredOn)
    cells.word("left_reason", ["moved", "transferred", "discharged", "declined", "died"])
    cells.word("preferred_contact", ["phone", "text", "email", "letter", "portal"])
    cells.yesOrNo("interpreter_needed")
    cells.yesOrNo("do_not_contact")
    const fact = {
      patientId: required(cells.text("patient_id"), "patient_id"),
      birth,
      sex: required(cells.word("sex", ["female", "male", "unknown"]), "sex"),
      registeredOn,
      leftOn,
      diedOn,
      mergedInto: cells.text("merged_into"),
      isTest: cells.yesOrNo("is_test") ?? false,
    }
    return { fact, events: [registeredOn, diedOn] }
  },
}

export const visitRows: RowParser<Visit> = {
  file: "visits.csv",
  columns: ["visit_id", "patient_id", "started_on", "kind"],
  key: (cells) => keyOf([required(cells.text("visit_id"), "visit_id")]),
  fact: (cells) => {
    const kind = required(cells.word("kind", visitKinds), "kind")
    const startedOn = required(cells.eventDate("started_on"), "started_on")
    const endedOn = cells.date("ended_on")
    rejectIfBefore(endedOn, startedOn)
    const parts = { kind, startedOn, endedOn, clinicianId: cells.text("clinician_id") }
    const content = contentOf(Object.values(parts))
    return { fact: { patientId: patientOf(cells), content, ...parts }, events: [startedOn] }
  },
}

export const orderRows: RowParser<Order> = {
  file: "medications.csv",
  columns: ["patient_id", "drug", "started_on"],
  key: (cells) => {
    const id = cells.text("order_id")
    if (id !== null) return keyOf([id])
    return keyOf([patientOf(cells), cells.text("drug"), cells.eventDate("started_on"), "by content"])
  },
  fact: (cells) => {
    const startedOn = required(cells.eventDate("started_on"), "started_on")
    const stoppedOn = cells.date("stopped_on")
    rejectIfBefore(stoppedOn, startedOn)
    const drug = required(cells.text("drug"), "drug")
    const codeSystem = cells.word("code_system", ["rxnorm", "atc", "snomed", "ndc"])
    const code = cells.text("code")
    const isAsNeeded = cells.yesOrNo("as_needed") ?? false
    const route = (cells.text("route") ?? "oral").toLowerCase()
    const supplyDays = cells.positive("supply_days")
    const [dose, timesPerDay] = [cells.positive("dose"), cells.positive("times_per_day")]
    const doses = { dose, doseUnit: cells.text("dose_unit"), timesPerDay }
    const parts = { drug, codeSystem, code, isAsNeeded, route, startedOn, stoppedOn, supplyDays, ...doses }
    const content = contentOf([...Object.values(parts), cells.text("stop_reason")])
    return { fact: { patientId: patientOf(cells), content, ...parts }, events: [startedOn] }
  },
}

export const problemRows: RowParser<Problem> = {
  file: "problems.csv",
  columns: ["patient_id"],
  key: (cells) => {
    const id = cells.text("problem_id")
    if (id !== null) return keyOf([id])
    const name = cells.text("code") ?? cells.text("description")
    const system = cells.word("code_system", ["icd10cm", "icd10", "snomed"])
    return keyOf([patientOf(cells), system, name, cells.eventDate("onset_on"), "by content"])
  },
  fact: (cells) => {
    const codeSystem = cells.word("code_system", ["icd10cm", "icd10", "snomed"])
    const code = cells.text("code")
    required(code ?? cells.text("description"), "code")
    const onsetOn = cells.eventDate("onset_on")
    const recordedOn = cells.eventDate("recorded_on")
    const resolvedOn = cells.date("resolved_on")
    rejectIfBefore(resolvedOn, onsetOn)
    const verification = cells.word("verification", ["confirmed", "provisional", "refuted"]) ?? "confirmed"
    const parts = { codeSystem, code, onsetOn, recordedOn, resolvedOn }
    const content = contentOf([...Object.values(parts), cells.text("description"), verification])
    const fact = {
      patientId: patientOf(cells),
      content,
      ...parts,
      isConfirmed: verification === "confirmed",
    }
    return { fact, events: [onsetOn, recordedOn] }
  },
}

export const allergyRows: RowParser<Allergy> = {
  file: "allergies.csv",
  columns: ["patient_id", "substance"],
  key: (cells) => keyOf([patientOf(cells), cells.text("substance"), cells.word("reaction", reactions)]),
  fact: (cells) => {
    const substance = required(cells.text("substance"), "substance")
    const reaction = cells.word("reaction", reactions)
    const recordedOn = cells.eventDate("recorded_on")
    const content = contentOf([
      substance,
      reaction,
      recordedOn,
      cells.word("kind", ["allergy", "intolerance"]),
    ])
    return {
      fact: { patientId: patientOf(cells), content, substance, reaction, recordedOn },
      events: [recordedOn],
    }
  },
}

export const dietRows: RowParser<DietRecord> = {
  file: "diet.csv",
  columns: ["patient_id", "recorded_on", "method", "sodium_mg"],
  key: (cells) => {
    const id = cells.text("diet_id")
    if (id !== null) return keyOf([id])
    return keyOf([
      patientOf(cells),
      cells.eventDate("recorded_on"),
      cells.word("method", methods),
      "by content",
    ])
  },
  fact: (cells) => {
    const day = required(cells.eventDate("recorded_on"), "recorded_on")
    const method = required(cells.word("method", methods), "method")
    const sodiumMg = required(cells.number("sodium_mg"), "sodium_mg")
    rejectOutside(sodiumMg, "100", "20000")
    const potassiumMg = cells.number("potassium_mg")
    const others = [cells.number("energy_kcal"), cells.number("protein_g")]
    const content = contentOf([day, method, sodiumMg, potassiumMg, ...others])
    return {
      fact: { patientId: patientOf(cells), content, day, method, sodiumMg, potassiumMg },
      events: [day],
    }
  },
}
