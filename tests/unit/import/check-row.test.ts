import { describe, expect, test } from "vitest"
import { checkRow, day, goodValues, verdictOn } from "../../helpers/check-rows"

const staff = { staff_id: "S1", name: "Dr A", role: "nephrologist" }
const patient = { patient_id: "P1", birth_date: "1960-05-01", sex: "female", registered_on: "2020-02-03" }
const visit = { visit_id: "V1", patient_id: "P1", started_on: "2026-01-10", kind: "office" }
const appointment = { appointment_id: "A1", patient_id: "P1", starts_at: "2026-05-01T09:00" }
const reading = {
  ...{ patient_id: "P1", taken_at: "2026-01-10T09:30", systolic: "131", diastolic: "79", setting: "office" },
}
const order = { patient_id: "P1", drug: "Lisinopril 10 mg", started_on: "2025-06-01" }
const problem = { patient_id: "P1", code: "N18.3" }
const allergy = { patient_id: "P1", substance: "Lisinopril", reaction: "angioedema" }
const diet = { patient_id: "P1", recorded_on: "2026-02-01", method: "recall_24h", sodium_mg: "3400" }

describe("a good row of each file becomes the values of its ledger", () => {
  test("staff.csv", () => {
    expect(goodValues("staff", { ...staff, role: "Dietitian", site: " North " })).toEqual({
      ...{ staff_id: "S1", name: "Dr A", role: "dietitian", site: "North" },
    })
  })

  test("patients.csv", () => {
    const row = {
      ...patient,
      ...{
        given_name: "Ann",
        family_name: "O'Neil",
        sex: "FEMALE",
        language: "es-mx",
        interpreter_needed: "Yes",
      },
      ...{ race: "2106-3 ; White;;", ethnicity: "declined", phone: "555-0100", email: "a@example.org" },
      ...{ postal_code: "01234", preferred_contact: "Letter", do_not_contact: "0", clinician_id: "S1" },
      ...{ site: "North", left_on: "2027-01-01", left_reason: "moved", died_on: "2026-03-16" },
      ...{ merged_into: "P2", is_test: "false" },
    }
    expect(goodValues("patients", row)).toEqual({
      ...{ patient_id: "P1", given_name: "Ann", family_name: "O'Neil", birth_date: day("1960-05-01") },
      ...{ sex: "female", language: "es-MX", interpreter_needed: true, race: "2106-3;White" },
      ...{ ethnicity: "declined", phone: "555-0100", email: "a@example.org", postal_code: "01234" },
      ...{ preferred_contact: "letter", do_not_contact: false, clinician_id: "S1", site: "North" },
      ...{ registered_on: day("2020-02-03"), left_on: day("2027-01-01"), left_reason: "moved" },
      ...{ died_on: day("2026-03-16"), merged_into: "P2", is_test: false },
    })
  })

  test("visits.csv", () => {
    expect(
      goodValues("visits", { ...visit, ended_on: "2026-01-12", kind: "Inpatient", clinician_id: "S1" }),
    ).toEqual({
      ...{ patient_id: "P1", visit_id: "V1", started_on: day("2026-01-10"), ended_on: day("2026-01-12") },
      ...{ kind: "inpatient", clinician_id: "S1" },
    })
  })

  test("appointments.csv, booked unless said", () => {
    expect(goodValues("appointments", appointment)).toEqual({
      ...{ patient_id: "P1", appointment_id: "A1", starts_at: Date.parse("2026-05-01T14:00Z") },
      ...{ is_date_only: false, clinician_id: null, kind: null, status: "booked" },
    })
    expect(
      goodValues("appointments", { ...appointment, status: "MISSED", kind: "telehealth" }),
    ).toMatchObject({
      ...{ status: "missed", kind: "telehealth" },
    })
  })

  test("readings.csv", () => {
    expect(goodValues("readings", { ...reading, systolic: "131.50", pulse: "72", reading_id: "R1" })).toEqual(
      {
        ...{
          patient_id: "P1",
          reading_id: "R1",
          taken_at: Date.parse("2026-01-10T15:30Z"),
          is_date_only: false,
        },
        ...{ systolic: "131.5", diastolic: "79", setting: "office", pulse: "72" },
      },
    )
  })

  test("medications.csv", () => {
    const row = {
      ...order,
      ...{ code_system: "ATC", code: "C09AA03", dose: "10.0", dose_unit: "mg", times_per_day: ".5" },
      ...{
        as_needed: "no",
        route: "Oral",
        stopped_on: "2025-06-01",
        stop_reason: "cough",
        supply_days: "90",
      },
      order_id: "O1",
    }
    expect(goodValues("medications", row)).toEqual({
      ...{ patient_id: "P1", order_id: "O1", drug: "Lisinopril 10 mg", code_system: "atc", code: "C09AA03" },
      ...{ dose: "10", dose_unit: "mg", times_per_day: "0.5", as_needed: false, route: "Oral" },
      ...{
        started_on: day("2025-06-01"),
        stopped_on: day("2025-06-01"),
        stop_reason: "cough",
        supply_days: "90",
      },
    })
  })

  test("problems.csv, confirmed unless said, and a code without a system is ICD-10", () => {
    expect(goodValues("problems", { ...problem, onset_on: "2019-01-01", recorded_on: "2019-02-01" })).toEqual(
      {
        ...{ patient_id: "P1", problem_id: null, code_system: "icd10", code: "N18.3", description: null },
        ...{ onset_on: day("2019-01-01"), resolved_on: null, recorded_on: day("2019-02-01") },
        verification: "confirmed",
      },
    )
    expect(goodValues("problems", { patient_id: "P1", description: "kidney disease" })).toMatchObject({
      ...{ code_system: null, code: null, description: "kidney disease" },
    })
  })

  test("allergies.csv", () => {
    expect(goodValues("allergies", { ...allergy, reaction: "Kidney Injury", kind: "INTOLERANCE" })).toEqual({
      ...{ patient_id: "P1", substance: "Lisinopril", reaction: "kidney injury", kind: "intolerance" },
      recorded_on: null,
    })
  })

  test("diet.csv", () => {
    expect(
      goodValues("diet", { ...diet, potassium_mg: "2800", energy_kcal: "1900", protein_g: "61.5" }),
    ).toEqual({
      ...{ patient_id: "P1", diet_id: null, recorded_on: day("2026-02-01"), method: "recall_24h" },
      ...{ sodium_mg: "3400", potassium_mg: "2800", energy_kcal: "1900", protein_g: "61.5" },
    })
  })
})

describe("every required column must have a value", () => {
  test.each([
    ...Object.keys(staff).map((column) => ["staff", staff, column] as const),
    ...Object.keys(patient).map((column) => ["patients", patient, column] as const),
    ...Object.keys(visit).map((column) => ["visits", visit, column] as const),
    ...Object.keys(appointment).map((column) => ["appointments", appointment, column] as const),
    ...Object.keys(reading).map((column) => ["readings", reading, column] as const),
    ...Object.keys(order).map((column) => ["medications", order, column] as const),
    ...(["patient_id", "substance"] as const).map((column) => ["allergies", allergy, column] as const),
    ...Object.keys(diet).map((column) => ["diet", diet, column] as const),
  ])("%s %j without %s", (kind, row, column) => {
    expect(verdictOn(kind, row)).toBe("good")
    expect(verdictOn(kind, { ...row, [column]: "  " })).toBe(`${column} missing-value`)
  })

  test("a problem needs a code or a description", () => {
    expect(verdictOn("problems", { patient_id: "P1" })).toBe("code missing-value")
    expect(verdictOn("problems", { code: "N18.3" })).toBe("patient_id missing-value")
  })
})

describe("a value that cannot be read rejects the row, in any column", () => {
  test.each([
    ["staff", staff, "role", "surgeon", "unknown-word"],
    ["patients", patient, "birth_date", "1960-02-30", "unreadable"],
    ["patients", patient, "sex", "f", "unknown-word"],
    ["patients", patient, "language", "en_US", "unreadable"],
    ["patients", patient, "interpreter_needed", "maybe", "unreadable"],
    ["patients", patient, "preferred_contact", "pigeon", "unknown-word"],
    ["patients", patient, "do_not_contact", "2", "unreadable"],
    ["patients", patient, "left_on", "soon", "unreadable"],
    ["patients", patient, "left_reason", "lost", "unknown-word"],
    ["patients", patient, "died_on", "2026", "unreadable"],
    ["patients", patient, "is_test", "ja", "unreadable"],
    ["visits", visit, "kind", "walk-in", "unknown-word"],
    ["visits", visit, "ended_on", "2026-01-32", "unreadable"],
    ["appointments", appointment, "starts_at", "9 o'clock", "unreadable"],
    ["appointments", appointment, "status", "moved", "unknown-word"],
    ["readings", reading, "systolic", "131/79", "unreadable"],
    ["readings", reading, "systolic", "1e2", "unreadable"],
    ["readings", reading, "diastolic", "79,5", "unreadable"],
    ["readings", reading, "setting", "clinic", "unknown-word"],
    ["readings", reading, "pulse", "regular", "unreadable"],
    ["medications", order, "code_system", "gpi", "unknown-word"],
    ["medications", order, "dose", "one", "unreadable"],
    ["medications", order, "as_needed", "prn", "unreadable"],
    ["medications", order, "stopped_on", "?", "unreadable"],
    ["problems", problem, "code_system", "icd9", "unknown-word"],
    ["problems", problem, "verification", "sure", "unknown-word"],
    ["allergies", allergy, "reaction", "swelling", "unknown-word"],
    ["allergies", allergy, "kind", "dislike", "unknown-word"],
    ["diet", diet, "method", "guess", "unknown-word"],
    ["diet", diet, "protein_g", "61 g", "unreadable"],
    ["diet", diet, "retracted", "perhaps", "unreadable"],
  ] as const)("%s %j with %s %s", (kind, row, column, value, code) => {
    expect(verdictOn(kind, { ...row, [column]: value })).toBe(`${column} ${code}`)
  })

  test("a control character that cannot be kept", () => {
    expect(verdictOn("staff", { ...staff, name: "Dr\0A" })).toBe("name unreadable")
    expect(verdictOn("staff", { ...staff, name: "Dr\u001fA" })).toBe("name unreadable")
  })

  test("an id longer than any record number", () => {
    expect(verdictOn("staff", { ...staff, staff_id: "9".repeat(200) })).toBe("good")
    expect(verdictOn("staff", { ...staff, staff_id: "9".repeat(201) })).toBe("staff_id unreadable")
  })
})

describe("plausible ranges, ends allowed", () => {
  test.each([
    ["systolic", "50", "49.9"],
    ["systolic", "300", "300.000000000000000001"],
    ["diastolic", "20", "19"],
  ])("%s %s is taken, %s is not", (column, inside, outside) => {
    const other = column === "systolic" ? { diastolic: "20" } : {}
    expect(verdictOn("readings", { ...reading, ...other, [column]: inside })).toBe("good")
    expect(verdictOn("readings", { ...reading, ...other, [column]: outside })).toBe(`${column} implausible`)
  })

  test("diastolic 200 is taken, 201 is not, and the systolic must be above it", () => {
    expect(verdictOn("readings", { ...reading, systolic: "201", diastolic: "200" })).toBe("good")
    expect(verdictOn("readings", { ...reading, systolic: "250", diastolic: "201" })).toBe(
      "diastolic implausible",
    )
    expect(verdictOn("readings", { ...reading, systolic: "79.0", diastolic: "79" })).toBe(
      "systolic implausible",
    )
  })

  test.each([
    ["100", "good"],
    ["20000", "good"],
    ["99", "sodium_mg implausible"],
    ["20000.01", "sodium_mg implausible"],
  ])("sodium of %s mg: %s", (sodium, verdict) => {
    expect(verdictOn("diet", { ...diet, sodium_mg: sodium })).toBe(verdict)
  })

  test.each(["dose", "times_per_day", "supply_days"])("%s must be above 0", (column) => {
    expect(verdictOn("medications", { ...order, [column]: "0.001" })).toBe("good")
    expect(verdictOn("medications", { ...order, [column]: "0.0" })).toBe(`${column} implausible`)
    expect(verdictOn("medications", { ...order, [column]: "-1" })).toBe(`${column} implausible`)
  })

  test.each([
    ["2026-03-15", "good"],
    ["2026-03-16", "birth_date implausible"],
    ["1906-03-15", "good"],
    ["1906-03-14", "birth_date implausible"],
  ])("born on %s, imported on 2026-03-15: %s", (birth_date, verdict) => {
    expect(verdictOn("patients", { ...patient, birth_date, registered_on: "2026-03-15" })).toBe(verdict)
  })
})

describe("dates in order", () => {
  test.each([
    ["patients", patient, "left_on", "2020-02-03", "2020-02-02"],
    ["visits", visit, "ended_on", "2026-01-10", "2026-01-09"],
    ["medications", order, "stopped_on", "2025-06-01", "2025-05-31"],
    ["problems", { ...problem, onset_on: "2019-01-01" }, "resolved_on", "2019-01-01", "2018-12-31"],
  ] as const)("%s: %j may end (%s) on %s, not on %s", (kind, row, column, sameDay, before) => {
    expect(verdictOn(kind, { ...row, [column]: sameDay })).toBe("good")
    expect(verdictOn(kind, { ...row, [column]: before })).toBe(`${column} end-before-start`)
  })

  test.each([
    ["patients", patient, "registered_on"],
    ["patients", patient, "died_on"],
    ["visits", visit, "started_on"],
    ["readings", reading, "taken_at"],
    ["medications", order, "started_on"],
    ["problems", problem, "onset_on"],
    ["problems", problem, "recorded_on"],
    ["allergies", allergy, "recorded_on"],
    ["diet", diet, "recorded_on"],
  ] as const)(
    "%s: an event (%j, %s) at most one day after the import and not before the birth",
    (kind, row, column) => {
      expect(verdictOn(kind, { ...row, [column]: "2026-03-16" })).toBe("good")
      expect(verdictOn(kind, { ...row, [column]: "2026-03-17" })).toBe(`${column} in-future`)
      expect(verdictOn(kind, { ...row, [column]: "1960-05-01" })).toBe("good")
      expect(verdictOn(kind, { ...row, [column]: "1960-04-30" })).toBe(`${column} before-birth`)
    },
  )

  test("the day of a time is the one it has in the clinic", () => {
    expect(verdictOn("readings", { ...reading, taken_at: "2026-03-17T04:59Z" })).toBe("good")
    expect(verdictOn("readings", { ...reading, taken_at: "2026-03-17T05:00Z" })).toBe("taken_at in-future")
  })

  test("an appointment and an end may lie in the future", () => {
    expect(verdictOn("appointments", { ...appointment, starts_at: "2030-01-01T09:00" })).toBe("good")
    expect(verdictOn("visits", { ...visit, ended_on: "2030-01-01" })).toBe("good")
    expect(verdictOn("medications", { ...order, stopped_on: "9999-12-31" })).toBe("good")
  })
})

describe("who and what a row names", () => {
  test("a fact of an unknown patient is good and held", () => {
    expect(checkRow("readings", { ...reading, patient_id: "P9" })).toMatchObject({
      verdict: "good",
      isHeld: true,
    })
    expect(checkRow("readings", reading)).toMatchObject({ verdict: "good", isHeld: false })
  })

  test("a bad fact of an unknown patient is rejected", () => {
    expect(verdictOn("readings", { ...reading, patient_id: "P9", systolic: "10" })).toBe(
      "systolic implausible",
    )
  })

  test("an unknown clinician is noticed and kept", () => {
    expect(checkRow("visits", { ...visit, clinician_id: "S2" })).toMatchObject({ isClinicianUnknown: true })
    expect(checkRow("visits", { ...visit, clinician_id: "S1" })).toMatchObject({ isClinicianUnknown: false })
    expect(checkRow("visits", visit)).toMatchObject({ isClinicianUnknown: false })
    expect(goodValues("visits", { ...visit, clinician_id: "S2" })).toMatchObject({ clinician_id: "S2" })
  })

  test("a row with an id is named by it, a row without by its natural key of parsed values", () => {
    expect(checkRow("readings", { ...reading, reading_id: "R1" })).toMatchObject({ key: { id: "R1" } })
    const key = { parts: ["P1", Date.parse("2026-01-10T15:30Z"), "office", "131", "79"] }
    expect(checkRow("readings", reading)).toMatchObject({ key })
    const otherSpelling = {
      ...reading,
      taken_at: "2026-01-10T15:30:00Z",
      systolic: "+131.0",
      setting: "OFFICE",
    }
    expect(checkRow("readings", otherSpelling)).toMatchObject({ key })
    expect(checkRow("medications", order)).toMatchObject({
      key: { parts: ["P1", "Lisinopril 10 mg", day("2025-06-01")] },
    })
    expect(checkRow("problems", problem)).toMatchObject({ key: { parts: ["P1", "icd10", "N18.3", null] } })
    expect(checkRow("allergies", allergy)).toMatchObject({
      key: { parts: ["P1", "Lisinopril", "angioedema"] },
    })
    expect(checkRow("diet", diet)).toMatchObject({ key: { parts: ["P1", day("2026-02-01"), "recall_24h"] } })
  })

  test("a rejected row keeps its key when the key can be read", () => {
    expect(checkRow("readings", { ...reading, pulse: "x" })).toMatchObject({
      key: { parts: ["P1", expect.anything(), "office", "131", "79"] },
    })
    expect(checkRow("readings", { ...reading, systolic: "x" })).toMatchObject({ key: null })
    expect(checkRow("readings", { ...reading, systolic: "x", reading_id: "R1" })).toMatchObject({
      key: { id: "R1" },
    })
  })
})

describe("a retraction needs the patient and the key, no more", () => {
  test.each([
    ["staff", { staff_id: "S1" }],
    ["patients", { patient_id: "P1" }],
    ["visits", { patient_id: "P1", visit_id: "V1", kind: "walk-in" }],
    ["readings", { patient_id: "P1", reading_id: "R1", systolic: "x" }],
    ["readings", { ...reading, systolic: "1000" }],
    ["labs", { patient_id: "P1", lab_id: "L1" }],
    ["labs", { patient_id: "P1", collected_at: "2026-01-01", test: "potassium" }],
    ["medications", { patient_id: "P1", order_id: "O1" }],
    ["problems", { patient_id: "P1", description: "kidney disease" }],
    ["diet", { patient_id: "P9", diet_id: "D1" }],
  ] as const)("%s %j", (kind, row) => {
    expect(verdictOn(kind, { ...row, retracted: "TRUE" })).toBe("retracted")
  })

  test.each([
    ["readings", { reading_id: "R1" }, "patient_id missing-value"],
    ["readings", { ...reading, setting: "clinic" }, "setting unknown-word"],
    ["diet", { patient_id: "P1", recorded_on: "2026-01-01" }, "method missing-value"],
  ] as const)("%s %j is rejected: %s", (kind, row, verdict) => {
    expect(verdictOn(kind, { ...row, retracted: "yes" })).toBe(verdict)
  })

  test("retracted = no is an ordinary row", () => {
    expect(verdictOn("readings", { ...reading, retracted: "No" })).toBe("good")
  })
})
