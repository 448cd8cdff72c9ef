/** A person of a list that is handed on, with the values behind where they stand. */
export type PersonRow = {
  patient_id: string
  given_name: string | null
  family_name: string | null
  age_years: number
  site: string | null
  clinician_name: string | null
  systolic: number | null
  diastolic: number | null
  bp_source: string | null
  bp_on: string | null
  egfr: number | null
  egfr_on: string | null
  acr: number | null
  acr_comparator: string | null
  acr_on: string | null
  potassium: number | null
  potassium_on: string | null
  sodium_mg: number | null
  classes: readonly string[]
  next_visit_on: string | null
}
