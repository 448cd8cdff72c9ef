import type { Param } from "../../lib/engine/values"

type Row = Record<string, Param>

/** Rows of the raw tables as the engine takes them; what is not named is usual or empty. */
export const raw = {
  person: (id: string, own: Row = {}): Row => ({
    patient_id: id,
    public_id: `public ${id}`,
    birth_date: "1960-05-05",
    sex: "female",
    registered_on: "2015-01-01",
    ...own,
  }),
  visit: (id: string, startedOn: string, own: Row = {}): Row => ({
    patient_id: id,
    started_on: startedOn,
    kind: "office",
    ...own,
  }),
  lab: (id: string, test: string, day: string, value: number, own: Row = {}): Row => {
    const collectedAt = day.includes(" ") ? day : `${day} 10:00:00`
    return {
      patient_id: id,
      collected_at: collectedAt,
      collected_epoch: Date.parse(`${collectedAt.replace(" ", "T")}Z`) / 1000,
      is_date_only: false,
      test,
      value,
      number: value,
      unit: "mg/g",
      value_text: String(value),
      ...own,
    }
  },
  order: (id: string, drug: string, startedOn: string, own: Row = {}): Row => ({
    patient_id: id,
    order_key: `${id} ${drug} ${startedOn}`,
    drug,
    started_on: startedOn,
    ...own,
  }),
  problem: (id: string, code: string, own: Row = {}): Row => ({
    patient_id: id,
    code_system: "icd10",
    code,
    onset_on: "2020-01-10",
    verification: "confirmed",
    ...own,
  }),
  reading: (id: string, day: string, systolic: number, own: Row = {}): Row => ({
    patient_id: id,
    taken_at: day.includes(" ") ? day : `${day} 10:00:00`,
    is_date_only: false,
    systolic,
    diastolic: 75,
    setting: "office",
    ...own,
  }),
  allergy: (id: string, substance: string, own: Row = {}): Row => ({
    patient_id: id,
    substance,
    kind: "allergy",
    recorded_on: "2020-01-10",
    ...own,
  }),
  diet: (id: string, recordedOn: string, sodiumMg: number, own: Row = {}): Row => ({
    patient_id: id,
    recorded_on: recordedOn,
    method: "recall_24h",
    sodium_mg: sodiumMg,
    ...own,
  }),
}
