import { describe, expect, it } from "vitest"
import { factKinds } from "../../../lib/domain/fact-kinds"
import { extractColumns, unknownColumn } from "../../../seed/extract-columns"
import { lineOf } from "../../../seed/extract-writer"

/** The columns of the extract contract, copied from its table. */
const contract: Record<string, string> = {
  staff: "staff_id name role site",
  patients:
    "patient_id given_name family_name birth_date sex language interpreter_needed race ethnicity phone email " +
    "postal_code preferred_contact do_not_contact clinician_id site registered_on left_on left_reason died_on " +
    "merged_into is_test",
  visits: "visit_id patient_id started_on ended_on kind clinician_id",
  appointments: "appointment_id patient_id starts_at clinician_id kind status",
  readings: "patient_id taken_at systolic diastolic setting pulse reading_id",
  labs: "patient_id collected_at test value unit status haemolysed lab_id",
  medications:
    "patient_id drug code_system code dose dose_unit times_per_day as_needed route started_on stopped_on " +
    "stop_reason supply_days order_id",
  problems:
    "patient_id code_system code description onset_on resolved_on recorded_on verification problem_id",
  allergies: "patient_id substance reaction kind recorded_on",
  diet: "patient_id recorded_on method sodium_mg potassium_mg energy_kcal protein_g diet_id",
}

describe("the columns of the demo extract", () => {
  it("are those of the contract in every file", () => {
    for (const kind of factKinds) {
      const beside = ["retracted", ...(unknownColumn.file === kind ? [unknownColumn.column] : [])]
      const written = extractColumns[kind].filter((column) => !beside.includes(column))

      expect([...written].sort(), kind).toEqual((contract[kind] ?? "").split(" ").sort())
    }
  })

  it("hold one column the contract does not know", () => {
    expect(extractColumns[unknownColumn.file]).toContain(unknownColumn.column)
    expect(contract[unknownColumn.file]).not.toContain(unknownColumn.column)
  })

  it("quote commas, quotes, line ends and blanks at the ends", () => {
    const line = lineOf("problems", {
      problem_id: "P1",
      patient_id: "X",
      description: 'a "b", c\nd',
      code: " I10",
    })

    expect(line).toBe('P1,X,," I10","a ""b"", c\nd",,,,')
  })
})
