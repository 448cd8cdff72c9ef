import { expect, test } from "vitest"
import { noteSummary } from "../../../app/(clinic)/patients/[publicId]/note-summary"
import type { PatientAnswers } from "../../../app/(clinic)/patients/[publicId]/patient-answers"
import { defaultSettings } from "../../../lib/domain/settings"
import type { EvidenceFact } from "../../../lib/questions/evidence-fact"

const person: PatientAnswers["person"] = {
  ...{ patient_id: "K-0417", public_id: "00000000-0000-4000-8000-000000000001" },
  ...{ given_name: "Ada", family_name: "Quill", birth_date: "1958-03-09", sex: "female" },
  ...{ site: null, clinician_name: null, language: null, interpreter_needed: false },
  ...{ registered_on: "2020-01-01", left_on: null, left_reason: null, died_on: null },
  ...{ has_merged_records: false, source: "patients:1:2", window_after: "2023-10-31" },
  ...{ age_years: 68, in_panel: true, panel_reason: null, last_visit_on: null, last_visit_source: null },
  ...{ ckd: true, on_dialysis: false, transplant: false, palliative: false, pregnancy: false },
  ...{ hypertension: true, diabetes: true, heart_failure: false, atrial_fibrillation: false },
  ...{ egfr: 41, g: "G3b", a: "A2", risk_cell: "very high", tests_due: 3, egfr_days_in_year: 2 },
  ...{ slope: -3.24, slope_standard_error: 0.8, slope_points: 7 },
  ...{ slope_from: "2024-02-01", slope_to: "2026-09-20" },
  ...{ failure_risk_2_years: null, failure_risk_5_years: null, risk_acr: null, risk_acr_on: null },
  ...{ potassium: 5.1, potassium_comparator: null, potassium_on: "2026-09-20" },
  ...{ systolic_limit: 130, diastolic_limit: 80, next_visit_source: null, next_visit_on: "2026-11-18" },
}

const fact: EvidenceFact = {
  ...{ evidence: "kidney", topic: "egfr", word: null, detail: null, first: null, second: null },
  ...{ comparator: null, since: null, day: null, rows: 1, sources: [] },
}

const evidence: EvidenceFact[] = [
  { ...fact, word: "G3b", first: 41, day: "2026-09-20" },
  {
    ...fact,
    ...({ evidence: "urine", topic: "urine", word: "uacr", detail: "A2, reported as 22 mg/mmol" } as const),
    ...{ first: 194.5, day: "2026-08-01" },
  },
  {
    ...fact,
    ...({ evidence: "pressure", topic: "representative", word: "office" } as const),
    ...{ first: 148, second: 86, day: "2026-10-12" },
  },
  { ...fact, evidence: "potassium", topic: "potassium", first: 5.1, day: "2026-09-20" },
  {
    ...fact,
    ...({ evidence: "diet", topic: "diet mean", word: "food record", first: 3139.6, rows: 2 } as const),
    ...{ since: "2026-03-01", day: "2026-09-01" },
  },
]

const course: PatientAnswers["line"]["courses"][number] = {
  ...{ drug: "losartan", class: "ras_blocker", kind: "arb", started_on: "2025-01-04", ends_on: null },
  ...{ is_active: true, stop_reason: null, step_days: ["2025-01-04", "2025-06-01"], step_doses: [50, 100] },
  ...{ step_units: ["mg", "mg"], step_times: [1, 1], sources: [] },
}

const allergy: PatientAnswers["allergies"][number] = {
  ...{ public_id: person.public_id, substance: "", reaction: null, recorded_on: null },
  ...{ concerns_ras: false, sources: [] },
}

const nothing = { pressures: [], courses: [], labs: [], diet: [], visits: [] }
const held = { standings: [], holds: [], evidence: [], cautions: [], resistance: null }
const on = { settings: defaultSettings, asOf: "2026-10-31", isRunning: true }

test("a person's screen becomes lines for a note, with units, days and places, and nobody's name", () => {
  const stopped = { ...course, drug: "atenolol", class: "beta_blocker", is_active: false }
  const unclassed = { ...course, drug: "sildenafil", class: null, step_days: [], step_doses: [] }
  const answers = {
    person,
    allergies: [
      { ...allergy, substance: "lisinopril", reaction: "cough", concerns_ras: true },
      { ...allergy, substance: "penicillin", reaction: null },
    ],
    line: { ...nothing, courses: [unclassed, stopped, course] },
    held: {
      ...held,
      evidence,
      cautions: [
        {
          ...({ caution: "single reading", word: null, number: null, comparator: null } as const),
          ...{ day: "2026-10-12", sources: [] },
        },
      ],
      standings: [{ measure_id: "bp-at-target", standing: "not met" as const, reasons: [] }],
    },
  }

  expect(noteSummary({ ...on, answers })).toBe(
    [
      "Summary as of 31 October 2026 (name and number left out)",
      "68 years, recorded female at birth",
      "On the problem list: hypertension and diabetes.",
      "Kidney: CKD G3b A2, very high risk",
      "eGFR: 41 mL/min/1.73 m² (G3b) on 20 Sep 2026",
      "Slope of eGFR: -3.2 mL/min/1.73 m² a year, 7 days with a value, 1 Feb 2024 to 20 Sep 2026",
      "Urine: ACR 195 mg/g, on 1 Aug 2026, A2, reported as 22 mg/mmol",
      "Pressure (mmHg): 148/86 office, target below 130/80; one reading on 12 Oct 2026",
      "Active drugs by class:",
      "- RAS blocker: losartan 100 mg, since 4 Jan 2025",
      "- Counted for no class: sildenafil (dose not on record), since 4 Jan 2025",
      "Potassium: 5.1 mmol/L, on 20 Sep 2026",
      "Sodium in the diet: 3,140 mg of sodium a day, food record, 2 records, 1 Mar 2026 to 1 Sep 2026",
      "Allergies and intolerances: lisinopril (cough), penicillin",
      "Cautions:",
      "- The office pressure on 12 Oct 2026 is a single reading.",
      "Measures that want attention:",
      "- Pressure at target: above target",
      "Measures not known: none",
      "Next visit: 18 Nov 2026",
      "From the clinic's records by Filtrate as of 31 October 2026; check before use.",
    ].join("\n"),
  )
})

test("what is not on record is said, and an earlier month knows no next visit", () => {
  const unknown: PatientAnswers["person"] = {
    ...{ ...person, age_years: null, sex: "unknown", ckd: null, hypertension: null, diabetes: null },
    ...{ egfr: null, g: null, a: null, risk_cell: null, slope: null, slope_points: null },
  }

  expect(
    noteSummary({
      ...on,
      isRunning: false,
      answers: { person: unknown, allergies: [], line: nothing, held },
    }),
  ).toBe(
    [
      "Summary as of 31 October 2026 (name and number left out)",
      "age not on record, sex at birth not recorded",
      "Kidney: kidney status not known",
      "eGFR: not on record in the window",
      "Slope of eGFR: not computable",
      "Urine: not on record",
      "Pressure (mmHg): not on record",
      "Active drugs by class: none on record",
      "Potassium: not on record",
      "Sodium in the diet: not on record",
      "Allergies and intolerances: none on record",
      "Cautions: none raised",
      "From the clinic's records by Filtrate as of 31 October 2026; check before use.",
    ].join("\n"),
  )
})
