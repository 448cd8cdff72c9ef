import "server-only"
/** What the engine takes from one ledger of the record store. */
export type RawTable = {
  /** The table the clinical views read. */
  readonly name: string
  /** Columns that are the row's own identity, left out when identical facts of merged records are matched. */
  readonly identity: readonly string[]
  /** Column name to DuckDB type; the order is that of `select`. */
  readonly columns: Readonly<Record<string, string>>
  /** Postgres expressions by column where it is not the column itself; `$tz` is the clinic's time zone. */
  readonly expressions?: Readonly<Record<string, string>>
  readonly ledger: string
  readonly where?: string
  /** Facts of merged records are folded into the survivor; patients and staff are not facts of that kind. */
  readonly isFact: boolean
}

const provenance = { import_id: "INTEGER", line: "INTEGER" } as const
const amount = "DECIMAL(18,6)"

const oneLine = (column: string) => `translate(${column}, E'\\r\\n', '  ')`
/** A number nobody bounds is dropped when it would not fit the engine's decimals. */
const bounded = (column: string) => `case when abs(${column}) < 1e11 then round(${column}, 6) end`
const localTime = (column: string) => `(${column} at time zone $tz)`

export const rawTables: readonly RawTable[] = [
  {
    name: "staff_raw",
    ledger: "staff",
    isFact: false,
    identity: ["staff_id"],
    columns: { staff_id: "VARCHAR", name: "VARCHAR", role: "VARCHAR", site: "VARCHAR", ...provenance },
    expressions: { name: oneLine("name") },
  },
  {
    name: "patient_records_raw",
    ledger: "patient_records join patients using (patient_id)",
    isFact: false,
    identity: ["patient_id"],
    columns: {
      patient_id: "VARCHAR",
      public_id: "VARCHAR",
      given_name: "VARCHAR",
      family_name: "VARCHAR",
      birth_date: "DATE",
      sex: "VARCHAR",
      language: "VARCHAR",
      interpreter_needed: "BOOLEAN",
      race: "VARCHAR",
      ethnicity: "VARCHAR",
      phone: "VARCHAR",
      email: "VARCHAR",
      preferred_contact: "VARCHAR",
      do_not_contact: "BOOLEAN",
      clinician_id: "VARCHAR",
      site: "VARCHAR",
      registered_on: "DATE",
      left_on: "DATE",
      left_reason: "VARCHAR",
      died_on: "DATE",
      merged_into: "VARCHAR",
      is_test: "BOOLEAN",
      ...provenance,
    },
    expressions: { given_name: oneLine("given_name"), family_name: oneLine("family_name") },
  },
  {
    name: "visits_raw",
    ledger: "visits",
    isFact: true,
    identity: ["visit_id"],
    columns: {
      patient_id: "VARCHAR",
      visit_id: "VARCHAR",
      started_on: "DATE",
      ended_on: "DATE",
      kind: "VARCHAR",
      clinician_id: "VARCHAR",
      ...provenance,
    },
  },
  {
    name: "appointments_raw",
    ledger: "appointments",
    isFact: true,
    identity: ["appointment_id"],
    columns: {
      patient_id: "VARCHAR",
      appointment_id: "VARCHAR",
      starts_at: "TIMESTAMP",
      is_date_only: "BOOLEAN",
      kind: "VARCHAR",
      status: "VARCHAR",
      clinician_id: "VARCHAR",
      ...provenance,
    },
    expressions: { starts_at: localTime("starts_at") },
  },
  {
    name: "readings_raw",
    ledger: "readings",
    isFact: true,
    identity: [],
    columns: {
      patient_id: "VARCHAR",
      taken_at: "TIMESTAMP",
      is_date_only: "BOOLEAN",
      systolic: "DECIMAL(12,6)",
      diastolic: "DECIMAL(12,6)",
      setting: "VARCHAR",
      pulse: "DECIMAL(12,6)",
      ...provenance,
    },
    expressions: {
      taken_at: localTime("taken_at"),
      systolic: "round(systolic, 6)",
      diastolic: "round(diastolic, 6)",
      pulse: "case when abs(pulse) < 1e5 then round(pulse, 6) end",
    },
  },
  {
    name: "labs_raw",
    ledger: "lab_results",
    where: "is_used and status <> 'preliminary'",
    isFact: true,
    identity: [],
    columns: {
      patient_id: "VARCHAR",
      collected_at: "TIMESTAMP",
      collected_epoch: "BIGINT",
      is_date_only: "BOOLEAN",
      test: "VARCHAR",
      comparator: "VARCHAR",
      value: amount,
      number: amount,
      unit: "VARCHAR",
      value_text: "VARCHAR",
      unit_text: "VARCHAR",
      is_haemolysed: "BOOLEAN",
      ...provenance,
    },
    expressions: {
      collected_at: localTime("collected_at"),
      // Seconds since 1970: local times repeat on the night the clocks go back, instants do not.
      collected_epoch: "floor(extract(epoch from collected_at))::bigint",
      value: bounded("value"),
      number: bounded("number"),
      value_text: oneLine("value_text"),
      unit_text: oneLine("unit_text"),
    },
  },
  {
    name: "orders_raw",
    ledger: "medication_orders",
    isFact: true,
    identity: ["order_key"],
    columns: {
      patient_id: "VARCHAR",
      order_key: "VARCHAR",
      drug: "VARCHAR",
      code_system: "VARCHAR",
      code: "VARCHAR",
      dose: amount,
      dose_unit: "VARCHAR",
      times_per_day: amount,
      as_needed: "BOOLEAN",
      route: "VARCHAR",
      started_on: "DATE",
      stopped_on: "DATE",
      stop_reason: "VARCHAR",
      supply_days: amount,
      ...provenance,
    },
    expressions: {
      order_key: "import_id || ':' || line",
      dose: bounded("dose"),
      dose_unit: oneLine("dose_unit"),
      times_per_day: bounded("times_per_day"),
      // least() passes over a missing value and would supply such an order for centuries.
      supply_days: "round(case when supply_days > 100000 then 100000 else supply_days end, 6)",
      drug: oneLine("drug"),
      stop_reason: oneLine("stop_reason"),
      route: oneLine("route"),
    },
  },
  {
    name: "problems_raw",
    ledger: "problems",
    isFact: true,
    identity: [],
    columns: {
      patient_id: "VARCHAR",
      code_system: "VARCHAR",
      code: "VARCHAR",
      description: "VARCHAR",
      onset_on: "DATE",
      resolved_on: "DATE",
      recorded_on: "DATE",
      verification: "VARCHAR",
      ...provenance,
    },
    expressions: { description: oneLine("description") },
  },
  {
    name: "allergies_raw",
    ledger: "allergies",
    isFact: true,
    identity: [],
    columns: {
      patient_id: "VARCHAR",
      substance: "VARCHAR",
      reaction: "VARCHAR",
      kind: "VARCHAR",
      recorded_on: "DATE",
      ...provenance,
    },
    expressions: { substance: oneLine("substance") },
  },
  {
    name: "diet_raw",
    ledger: "diet_records",
    isFact: true,
    identity: [],
    columns: {
      patient_id: "VARCHAR",
      recorded_on: "DATE",
      method: "VARCHAR",
      sodium_mg: amount,
      potassium_mg: amount,
      ...provenance,
    },
    expressions: { sodium_mg: bounded("sodium_mg"), potassium_mg: bounded("potassium_mg") },
  },
]
