import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { openStore, type TestStore } from "../../helpers/open-store"

let store: TestStore
let line = 0

beforeAll(async () => {
  store = await openStore()
  await store.client.query(
    "insert into imports (source, status, as_of) values ('test', 'done', '2026-01-31')",
  )
  await store.client.query("insert into patients (patient_id) values ('P1')")
})

afterAll(() => store.close())

type Row = Record<string, string | number | boolean | null>

const version: Row = {
  import_id: 1,
  hash: "00000000-0000-0000-0000-000000000000",
  known_at: "2026-01-31T12:00Z",
}
const timed: Row = { ...version, patient_id: "P1", is_date_only: false }

const good: Record<string, Row> = {
  staff: { ...version, staff_id: "S1", name: "A", role: "nephrologist" },
  patient_records: {
    ...version,
    patient_id: "P1",
    birth_date: "1950-01-01",
    sex: "female",
    registered_on: "2020-01-01",
  },
  visits: { ...version, patient_id: "P1", visit_id: "V1", started_on: "2026-01-05", kind: "office" },
  appointments: { ...timed, appointment_id: "A1", starts_at: "2026-03-01T09:00Z", status: "booked" },
  readings: { ...timed, taken_at: "2026-01-05T09:00Z", systolic: 128, diastolic: 76, setting: "office" },
  lab_results: {
    ...timed,
    collected_at: "2026-01-05T09:00Z",
    test: "creatinine",
    is_used: true,
    value: 88.4,
    value_text: "1.0",
    status: "final",
  },
  medication_orders: { ...version, patient_id: "P1", drug: "losartan", started_on: "2026-01-05" },
  problems: { ...version, patient_id: "P1", code: "I10", verification: "confirmed" },
  allergies: { ...version, patient_id: "P1", substance: "lisinopril" },
  diet_records: {
    ...version,
    patient_id: "P1",
    recorded_on: "2026-01-05",
    method: "recall_24h",
    sodium_mg: 2300,
  },
}

// Ends allowed: each value stands on a limit of the extract contract, rule 8, or is a word of its lists.
const kept: [table: string, change: Row][] = [
  ["patient_records", { left_on: "2020-01-01", left_reason: "moved", preferred_contact: "letter" }],
  ["patient_records", { died_on: "2026-01-01", left_on: null }],
  ["visits", { ended_on: "2026-01-05", kind: "dialysis" }],
  ["appointments", { kind: null, status: "missed" }],
  ["readings", { systolic: 300, diastolic: 200 }],
  ["readings", { systolic: 50, diastolic: 20, setting: "ambulatory" }],
  ["readings", { systolic: 81, diastolic: 80 }],
  ["lab_results", { value: 8.84 }],
  ["lab_results", { value: 2652 }],
  ["lab_results", { test: "potassium", value: 1.5 }],
  ["lab_results", { test: "potassium", value: 10, comparator: ">=" }],
  ["lab_results", { test: "uacr", value: 30000 }],
  ["lab_results", { test: "upcr", value: 50000 }],
  ["lab_results", { test: "urine_sodium_24h", value: 5 }],
  ["lab_results", { test: "urine_sodium_24h", value: 870 }],
  ["lab_results", { test: "egfr", value: 1 }],
  ["lab_results", { test: "egfr", value: 250, status: "preliminary" }],
  ["lab_results", { test: "urine_dipstick_protein", value: null, value_text: "2+" }],
  ["lab_results", { test: "2160-0", is_used: false, value: null }],
  ["medication_orders", { stopped_on: "2026-01-05", dose: 0.5, times_per_day: 1, supply_days: 30 }],
  ["problems", { code: null, description: "hypertension", onset_on: "2020-01-01" }],
  ["allergies", { reaction: "kidney injury", kind: "intolerance" }],
  ["diet_records", { sodium_mg: 100 }],
  ["diet_records", { sodium_mg: 20000 }],
  ["staff", { ended_at: "2026-02-01T00:00Z", ended_by: 1, end_reason: "superseded" }],
  ["staff", { ended_at: "2026-02-01T00:00Z", end_reason: "discarded" }],
]

const refused: [table: string, change: Row, constraint: string][] = [
  ["staff", { role: "surgeon" }, "staff_words"],
  ["staff", { ended_at: "2026-02-01T00:00Z" }, "staff_version"],
  ["staff", { end_reason: "withdrawn" }, "staff_version"],
  ["staff", { ended_at: "2026-02-01T00:00Z", end_reason: "lost" }, "staff_version"],
  ["staff", { ended_by: 1 }, "staff_version"],
  ["patient_records", { sex: "f" }, "patient_records_words"],
  ["patient_records", { preferred_contact: "pigeon" }, "patient_records_words"],
  ["patient_records", { left_on: "2020-01-02", left_reason: "bored" }, "patient_records_words"],
  ["patient_records", { left_on: "2019-12-31" }, "patient_records_dates"],
  ["patient_records", { died_on: "1949-12-31" }, "patient_records_dates"],
  ["patient_records", { registered_on: "1949-12-31" }, "patient_records_dates"],
  ["visits", { kind: "home" }, "visits_words"],
  ["visits", { ended_on: "2026-01-04" }, "visits_dates"],
  ["appointments", { status: "lost" }, "appointments_words"],
  ["appointments", { kind: "picnic" }, "appointments_words"],
  ["readings", { systolic: 301 }, "readings_limits"],
  ["readings", { systolic: 49, diastolic: 20 }, "readings_limits"],
  ["readings", { systolic: 250, diastolic: 201 }, "readings_limits"],
  ["readings", { diastolic: 19 }, "readings_limits"],
  ["readings", { systolic: 80, diastolic: 80 }, "readings_limits"],
  ["readings", { setting: "clinic" }, "readings_limits"],
  ["readings", { occurrence: 0 }, "readings_version"],
  ["lab_results", { value: 8.83 }, "lab_results_limits"],
  ["lab_results", { value: 2652.1 }, "lab_results_limits"],
  ["lab_results", { test: "potassium", value: 1.4 }, "lab_results_limits"],
  ["lab_results", { test: "potassium", value: 10.1 }, "lab_results_limits"],
  ["lab_results", { test: "uacr", value: -1 }, "lab_results_limits"],
  ["lab_results", { test: "uacr", value: 30001 }, "lab_results_limits"],
  ["lab_results", { test: "upcr", value: 50001 }, "lab_results_limits"],
  ["lab_results", { test: "urine_sodium_24h", value: 4.9 }, "lab_results_limits"],
  ["lab_results", { test: "urine_sodium_24h", value: 871 }, "lab_results_limits"],
  ["lab_results", { test: "egfr", value: 0.9 }, "lab_results_limits"],
  ["lab_results", { test: "egfr", value: 251 }, "lab_results_limits"],
  ["lab_results", { test: "glucose" }, "lab_results_words"],
  ["lab_results", { status: "guess" }, "lab_results_words"],
  ["lab_results", { comparator: "~" }, "lab_results_words"],
  ["medication_orders", { dose: 0 }, "medication_orders_limits"],
  ["medication_orders", { times_per_day: 0 }, "medication_orders_limits"],
  ["medication_orders", { supply_days: -1 }, "medication_orders_limits"],
  ["medication_orders", { stopped_on: "2026-01-04" }, "medication_orders_limits"],
  ["medication_orders", { code_system: "local" }, "medication_orders_limits"],
  ["problems", { verification: "maybe" }, "problems_words"],
  ["problems", { code_system: "icd9" }, "problems_words"],
  ["problems", { code: null }, "problems_content"],
  ["problems", { onset_on: "2021-01-01", resolved_on: "2020-01-01" }, "problems_content"],
  ["allergies", { kind: "dislike" }, "allergies_words"],
  ["allergies", { reaction: "sneezing" }, "allergies_words"],
  ["diet_records", { sodium_mg: 99 }, "diet_records_limits"],
  ["diet_records", { sodium_mg: 20001 }, "diet_records_limits"],
  ["diet_records", { method: "guess" }, "diet_records_limits"],
  ["readings", { patient_id: "P9" }, "readings_patient_id_fkey"],
  ["readings", { import_id: 9 }, "readings_import_id_fkey"],
]

describe("the record store repeats the limits of the extract contract", () => {
  test.each(kept)("%s keeps %o", async (table, change) => {
    await insert(table, change)
  })

  test.each(refused)("%s refuses %o", async (table, change, constraint) => {
    await expect(insert(table, change)).rejects.toMatchObject({ constraint })
  })

  test("holds one version of a fact in force, and any number that have ended", async () => {
    const ended = { ended_at: "2026-02-01T00:00Z", end_reason: "superseded", key: keyOf(0) }
    await insert("problems", ended)
    await insert("problems", ended)
    await insert("problems", { key: keyOf(0) })

    await expect(insert("problems", { key: keyOf(0) })).rejects.toMatchObject({
      constraint: "problems_in_force",
    })
  })

  test("holds as many readings of one key as occurred", async () => {
    await insert("readings", { key: keyOf(0), occurrence: 1 })
    await insert("readings", { key: keyOf(0), occurrence: 2 })

    const again = insert("readings", { key: keyOf(0), occurrence: 2 })

    await expect(again).rejects.toMatchObject({ constraint: "readings_in_force" })
  })

  test("knows one clinic", async () => {
    const second = store.client.query("insert into clinics (id, name, time_zone) values (2, 'B', 'UTC')")

    await expect(second).rejects.toMatchObject({ constraint: "clinics_single" })
  })
})

/** A row of its own line and key, good but for the change. */
async function insert(table: string, change: Row): Promise<void> {
  line += 1
  const row = { line, key: keyOf(line), ...good[table], ...change }
  const columns = Object.keys(row)
  await store.client.query(
    `insert into ${table} (${columns.join(", ")}) values (${columns.map((_, index) => `$${index + 1}`).join(", ")})`,
    Object.values(row),
  )
}

function keyOf(n: number): string {
  return `00000000-0000-0000-0000-${String(n).padStart(12, "0")}`
}
