import type { FactKind } from "../lib/domain/fact-kinds"
import { textOf, timeOf, type Day } from "./calendar"
import type { Row } from "./extract-columns"
import { lineOf } from "./extract-writer"
import { patientId } from "./person"

/** A line the import must reject or hold, and the person after whose rows it stands. */
export type BadLine = { file: FactKind; text: string; outcome: "rejected" | "held"; afterPatient: number }

type Draft = Omit<BadLine, "afterPatient">

/**
 * The lines that are wrong on purpose, so that the rejects are never empty: forty-odd for a clinic of 450 people
 * or more, one for every ten people below that, and never 20 in one file, so that no import stops for them.
 */
export function badLines(options: { patients: number; through: Day }): BadLine[] {
  const { patients, through } = options
  const drafts = draftsFor(through)
  const count = Math.min(drafts.length, Math.floor(patients / 10))
  return drafts.slice(0, count).map((draft, index) => {
    const afterPatient = 1 + Math.floor(((index + 0.5) * patients) / count)
    return { ...draft, afterPatient: Math.min(patients, afterPatient) }
  })
}

/** In an order that mixes files and kinds of mistake, since small clinics get only the first. */
function draftsFor(through: Day): Draft[] {
  const someone = patientId(1)
  const nobody = "LK-888888"
  const day = textOf(through - 47)
  const time = timeOf(through - 47, 615)
  const reading = { patient_id: someone, taken_at: time, systolic: 142, diastolic: 84, setting: "office" }
  const lab = { patient_id: someone, collected_at: time, test: "creatinine", value: "1.42", unit: "mg/dL" }
  const order = { patient_id: someone, drug: "Amlodipine 5 mg", started_on: day }
  const visit = { patient_id: someone, started_on: day, kind: "office" }
  const diet = { patient_id: someone, recorded_on: day, method: "recall_24h", sodium_mg: 2980 }
  const person = {
    given_name: "Wendell",
    family_name: "Ashcombe",
    birth_date: "1951-06-02",
    sex: "male",
    registered_on: day,
  }
  return [
    rejected("readings", { ...reading, reading_id: "BAD-R1", systolic: 1420 }),
    rejected("labs", { ...lab, lab_id: "BAD-L1", value: 126 }),
    rejected("patients", { ...person, patient_id: "LK-888801", birth_date: "31/02/1951" }),
    held("readings", { ...reading, reading_id: "BAD-R2", patient_id: nobody }),
    rejected("medications", { ...order, order_id: "BAD-M1", times_per_day: "twice" }),
    rejected("diet", { ...diet, diet_id: "BAD-D1", sodium_mg: 32000 }),
    rejected("visits", { ...visit, visit_id: "BAD-V1", kind: "corridor" }),
    rejected("labs", { ...lab, lab_id: "BAD-L2", test: "uacr", value: 44, unit: "" }),
    rejected("readings", { ...reading, reading_id: "BAD-R3", systolic: 84, diastolic: 142 }),
    rejected("problems", { problem_id: "BAD-P1", patient_id: someone, onset_on: day }),
    rejected("appointments", { appointment_id: "BAD-T1", patient_id: someone, starts_at: "next Tuesday" }),
    rejected("allergies", { patient_id: someone, substance: "lisinopril", reaction: "swelling" }),
    rejected("patients", { ...person, patient_id: "LK-888802", sex: "F" }),
    rejected("readings", { ...reading, reading_id: "BAD-R4", systolic: "142/84", diastolic: "" }),
    held("labs", { ...lab, lab_id: "BAD-L3", patient_id: nobody }),
    rejected("medications", { ...order, order_id: "BAD-M2", stopped_on: textOf(through - 147) }),
    rejected("labs", { ...lab, lab_id: "BAD-L4", test: "potassium", value: 52, unit: "mmol/L" }),
    rejected("readings", { ...reading, reading_id: "BAD-R5", taken_at: "2026-13-04T09:15" }),
    rejected("diet", { ...diet, diet_id: "BAD-D2", method: "diary" }),
    rejected("patients", {
      ...person,
      patient_id: "LK-888803",
      left_on: textOf(through - 400),
      left_reason: "moved",
    }),
    rejected("labs", { ...lab, lab_id: "BAD-L5", test: "cretinine" }),
    rejected("visits", { ...visit, visit_id: "BAD-V2", ended_on: textOf(through - 60) }),
    rejected("readings", { ...reading, reading_id: "BAD-R6", setting: "kitchen table" }),
    rejected("labs", { ...lab, lab_id: "BAD-L6", value: "see note" }),
    held("medications", { ...order, order_id: "BAD-M3", patient_id: nobody }),
    rejectedText("patients", "LK-888804,Odell,Marchbanks, Jr,1949-01-17,male"),
    rejected("problems", {
      problem_id: "BAD-P2",
      patient_id: someone,
      code_system: "icd10cm",
      code: "N18.4",
      onset_on: day,
      resolved_on: textOf(through - 90),
    }),
    rejected("labs", { ...lab, lab_id: "BAD-L7", unit: "mmol/L" }),
    rejected("readings", { ...reading, reading_id: "BAD-R7", taken_at: timeOf(through + 400, 600) }),
    rejected("diet", { ...diet, diet_id: "BAD-D3", sodium_mg: "2.8 g" }),
    rejected("medications", { ...order, order_id: "BAD-M4", dose: 0, dose_unit: "mg" }),
    rejected("appointments", {
      appointment_id: "BAD-T2",
      patient_id: someone,
      starts_at: timeOf(through + 20, 600),
      status: "no-show",
    }),
    rejected("staff", { staff_id: "S-90", name: "Front desk", role: "receptionist", site: "Northgate" }),
    rejected("labs", { ...lab, lab_id: "BAD-L8", test: "uacr", value: "1,250", unit: "mg/g" }),
    rejected("visits", { ...visit, visit_id: "BAD-V3", started_on: "" }),
    held("visits", { ...visit, visit_id: "BAD-V4", patient_id: nobody }),
    rejected("readings", { ...reading, reading_id: "BAD-R8", diastolic: "" }),
    rejected("labs", { ...lab, lab_id: "BAD-L9", collected_at: "1899-12-31T08:00" }),
    rejected("medications", { ...order, order_id: "BAD-M5", as_needed: "maybe" }),
    rejected("diet", { ...diet, diet_id: "BAD-D4", recorded_on: "2026-02-30" }),
    rejected("allergies", { patient_id: someone, substance: "", reaction: "rash", kind: "allergy" }),
    rejected("patients", { ...person, patient_id: "", given_name: "Unnumbered" }),
    rejectedText("readings", "BAD-R9,LK-000001,142,84"),
    rejected("problems", { problem_id: "BAD-P3", patient_id: someone, code: "I10", verification: "likely" }),
    held("problems", { problem_id: "BAD-P4", patient_id: nobody, code_system: "icd10cm", code: "I10" }),
  ]
}

function rejected<Kind extends FactKind>(file: Kind, row: Row<Kind>): Draft {
  return { file, text: lineOf(file, row), outcome: "rejected" }
}

function held<Kind extends FactKind>(file: Kind, row: Row<Kind>): Draft {
  return { file, text: lineOf(file, row), outcome: "held" }
}

function rejectedText(file: FactKind, text: string): Draft {
  return { file, text, outcome: "rejected" }
}
