import type { FactKind } from "../lib/domain/fact-kinds"

/**
 * The columns of the extract contract, file by file, in the order the demo clinic writes them. `retracted` may
 * stand in any file; this clinic's records system has it in three.
 */
export const extractColumns = {
  staff: ["staff_id", "name", "role", "site"],
  patients: [
    "patient_id",
    "given_name",
    "family_name",
    "birth_date",
    "sex",
    "language",
    "interpreter_needed",
    "race",
    "ethnicity",
    "phone",
    "email",
    "postal_code",
    "preferred_contact",
    "do_not_contact",
    "clinician_id",
    "site",
    "registered_on",
    "left_on",
    "left_reason",
    "died_on",
    "merged_into",
    "is_test",
  ],
  visits: ["visit_id", "patient_id", "started_on", "ended_on", "kind", "clinician_id"],
  appointments: ["appointment_id", "patient_id", "starts_at", "clinician_id", "kind", "status"],
  readings: [
    "reading_id",
    "patient_id",
    "taken_at",
    "systolic",
    "diastolic",
    "setting",
    "pulse",
    "retracted",
  ],
  labs: [
    "lab_id",
    "patient_id",
    "collected_at",
    "test",
    "value",
    "unit",
    "status",
    "haemolysed",
    "analyser",
    "retracted",
  ],
  medications: [
    "order_id",
    "patient_id",
    "drug",
    "code_system",
    "code",
    "dose",
    "dose_unit",
    "times_per_day",
    "as_needed",
    "route",
    "started_on",
    "stopped_on",
    "stop_reason",
    "supply_days",
    "retracted",
  ],
  problems: [
    "problem_id",
    "patient_id",
    "code_system",
    "code",
    "description",
    "onset_on",
    "resolved_on",
    "recorded_on",
    "verification",
  ],
  allergies: ["patient_id", "substance", "reaction", "kind", "recorded_on"],
  diet: [
    "diet_id",
    "patient_id",
    "recorded_on",
    "method",
    "sodium_mg",
    "potassium_mg",
    "energy_kcal",
    "protein_g",
  ],
} as const satisfies Record<FactKind, readonly string[]>

/** One column the contract does not know, as most records systems send: the import names it once. */
export const unknownColumn = { file: "labs", column: "analyser" } as const

export type Column<Kind extends FactKind> = (typeof extractColumns)[Kind][number]

/** One row of a file by column; a column left out is empty. */
export type Row<Kind extends FactKind> = { readonly [Name in Column<Kind>]?: string | number | boolean }

export type Rows = { [Kind in FactKind]: Row<Kind>[] }

export function noRows(): Rows {
  return {
    staff: [],
    patients: [],
    visits: [],
    appointments: [],
    readings: [],
    labs: [],
    medications: [],
    problems: [],
    allergies: [],
    diet: [],
  }
}
