import type { FactKind } from "./fact-kinds"

export type ColumnType = "text" | "date" | "instant" | "number" | "boolean"

/** One value of a fact: a date as days and an instant as milliseconds since 1970 UTC, a number as decimal text. */
export type LedgerValue = string | number | boolean | null

/** How the facts of one kind are kept: the table and, in the order of a record's values, its columns. */
export type Ledger = {
  readonly kind: FactKind
  readonly table: string
  readonly columns: readonly (readonly [name: string, type: ColumnType])[]
  /** How many columns at the end only keep the spelling of the extract: a change there is no change of the fact. */
  readonly spellings: number
  /** The column of the fact's own id where rows without one are told apart by their order of occurrence. */
  readonly numberedWithout: string | null
  /** A preliminary version never takes the place of a final or corrected one. */
  readonly canBePreliminary: boolean
  /** Columns with a day on which something happened, which cannot lie before the patient's birth. */
  readonly events: readonly string[]
}

const plain = { spellings: 0, numberedWithout: null, canBePreliminary: false, events: [] }

export const ledgers: Readonly<Record<FactKind, Ledger>> = {
  staff: {
    ...plain,
    kind: "staff",
    table: "staff",
    columns: [
      ["staff_id", "text"],
      ["name", "text"],
      ["role", "text"],
      ["site", "text"],
    ],
  },
  patients: {
    ...plain,
    kind: "patients",
    table: "patient_records",
    columns: [
      ["patient_id", "text"],
      ["given_name", "text"],
      ["family_name", "text"],
      ["birth_date", "date"],
      ["sex", "text"],
      ["language", "text"],
      ["interpreter_needed", "boolean"],
      ["race", "text"],
      ["ethnicity", "text"],
      ["phone", "text"],
      ["email", "text"],
      ["postal_code", "text"],
      ["preferred_contact", "text"],
      ["do_not_contact", "boolean"],
      ["clinician_id", "text"],
      ["site", "text"],
      ["registered_on", "date"],
      ["left_on", "date"],
      ["left_reason", "text"],
      ["died_on", "date"],
      ["merged_into", "text"],
      ["is_test", "boolean"],
    ],
  },
  visits: {
    ...plain,
    kind: "visits",
    table: "visits",
    columns: [
      ["patient_id", "text"],
      ["visit_id", "text"],
      ["started_on", "date"],
      ["ended_on", "date"],
      ["kind", "text"],
      ["clinician_id", "text"],
    ],
    events: ["started_on"],
  },
  appointments: {
    ...plain,
    kind: "appointments",
    table: "appointments",
    columns: [
      ["patient_id", "text"],
      ["appointment_id", "text"],
      ["starts_at", "instant"],
      ["is_date_only", "boolean"],
      ["clinician_id", "text"],
      ["kind", "text"],
      ["status", "text"],
    ],
  },
  readings: {
    ...plain,
    kind: "readings",
    table: "readings",
    columns: [
      ["patient_id", "text"],
      ["reading_id", "text"],
      ["taken_at", "instant"],
      ["is_date_only", "boolean"],
      ["systolic", "number"],
      ["diastolic", "number"],
      ["setting", "text"],
      ["pulse", "number"],
    ],
    numberedWithout: "reading_id",
    events: ["taken_at"],
  },
  labs: {
    kind: "labs",
    table: "lab_results",
    columns: [
      ["patient_id", "text"],
      ["lab_id", "text"],
      ["collected_at", "instant"],
      ["is_date_only", "boolean"],
      ["test", "text"],
      ["loinc", "text"],
      ["is_used", "boolean"],
      ["comparator", "text"],
      ["value", "number"],
      ["number", "number"],
      ["unit", "text"],
      ["status", "text"],
      ["is_haemolysed", "boolean"],
      ["value_text", "text"],
      ["unit_text", "text"],
    ],
    spellings: 2,
    numberedWithout: "lab_id",
    canBePreliminary: true,
    events: ["collected_at"],
  },
  medications: {
    ...plain,
    kind: "medications",
    table: "medication_orders",
    columns: [
      ["patient_id", "text"],
      ["order_id", "text"],
      ["drug", "text"],
      ["code_system", "text"],
      ["code", "text"],
      ["dose", "number"],
      ["dose_unit", "text"],
      ["times_per_day", "number"],
      ["as_needed", "boolean"],
      ["route", "text"],
      ["started_on", "date"],
      ["stopped_on", "date"],
      ["stop_reason", "text"],
      ["supply_days", "number"],
    ],
    events: ["started_on"],
  },
  problems: {
    ...plain,
    kind: "problems",
    table: "problems",
    columns: [
      ["patient_id", "text"],
      ["problem_id", "text"],
      ["code_system", "text"],
      ["code", "text"],
      ["description", "text"],
      ["onset_on", "date"],
      ["resolved_on", "date"],
      ["recorded_on", "date"],
      ["verification", "text"],
    ],
    events: ["onset_on", "recorded_on"],
  },
  allergies: {
    ...plain,
    kind: "allergies",
    table: "allergies",
    columns: [
      ["patient_id", "text"],
      ["substance", "text"],
      ["reaction", "text"],
      ["kind", "text"],
      ["recorded_on", "date"],
    ],
    events: ["recorded_on"],
  },
  diet: {
    ...plain,
    kind: "diet",
    table: "diet_records",
    columns: [
      ["patient_id", "text"],
      ["diet_id", "text"],
      ["recorded_on", "date"],
      ["method", "text"],
      ["sodium_mg", "number"],
      ["potassium_mg", "number"],
      ["energy_kcal", "number"],
      ["protein_g", "number"],
    ],
    events: ["recorded_on"],
  },
}
