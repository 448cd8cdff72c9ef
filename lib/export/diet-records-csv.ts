import { toCsv } from "./csv"

type DietRecord = {
  patient_id: string
  given_name: string | null
  family_name: string | null
  age_years: number
  site: string | null
  clinician_name: string | null
  day: string
  method: string
  sodium_mg: number
  comparator: string | null
}

const columns = [
  "on",
  "measure",
  "series",
  "patient_id",
  "family_name",
  "given_name",
  "age_years",
  "site",
  "clinician",
  "recorded_on",
  "method",
  "sodium_mg",
]

/** The records behind one month's mean sodium of a series as CSV, one row each. */
export function dietRecordsCsv(list: {
  on: string
  measureId: string
  series: string
  records: readonly DietRecord[]
}): string {
  const rows = list.records.map((one) => [
    list.on,
    list.measureId,
    list.series,
    one.patient_id,
    one.family_name,
    one.given_name,
    one.age_years,
    one.site,
    one.clinician_name,
    one.day,
    one.method,
    `${one.comparator ?? ""}${one.sodium_mg}`,
  ])
  return toCsv(columns, rows)
}
