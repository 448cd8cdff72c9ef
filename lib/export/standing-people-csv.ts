import { toCsv } from "./csv"
import type { PersonRow } from "./person-row"

type Person = PersonRow & {
  a: string | null
  ras_history: string
  ras_stopped_on: string | null
  ras_stop_reason: string | null
  urine_last_on: string | null
  reasons: readonly string[]
  /** The person's own standing, where a list holds several. */
  standing?: string | null
}

const columns = [
  "on",
  "measure",
  "standing",
  "reasons",
  "patient_id",
  "family_name",
  "given_name",
  "age_years",
  "site",
  "clinician",
  "systolic",
  "diastolic",
  "bp_source",
  "bp_on",
  "egfr",
  "egfr_on",
  "acr_mg_g",
  "acr_on",
  "a",
  "classes",
  "ras_history",
  "ras_stopped_on",
  "ras_stop_reason",
  "potassium_mmol_l",
  "potassium_on",
  "diet_sodium_mg",
  "urine_last_on",
  "next_visit_on",
]

/** The people of one standing as CSV, one row each, with the values and dates that put them there. */
export function standingPeopleCsv(list: {
  on: string
  measureId: string
  standing: string
  people: readonly Person[]
}): string {
  const rows = list.people.map((one) => [
    list.on,
    list.measureId,
    one.standing ?? list.standing,
    one.reasons.join("; "),
    one.patient_id,
    one.family_name,
    one.given_name,
    one.age_years,
    one.site,
    one.clinician_name,
    one.systolic,
    one.diastolic,
    one.bp_source,
    one.bp_on,
    one.egfr,
    one.egfr_on,
    one.acr === null ? null : `${one.acr_comparator ?? ""}${one.acr}`,
    one.acr_on,
    one.a,
    one.classes.join("; "),
    one.ras_history,
    one.ras_stopped_on,
    one.ras_stop_reason,
    one.potassium,
    one.potassium_on,
    one.sodium_mg,
    one.urine_last_on,
    one.next_visit_on,
  ])
  return toCsv(columns, rows)
}
