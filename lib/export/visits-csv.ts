import { toCsv } from "./csv"

type Visit = {
  starts_at: string | null
  clinician: string
  kind: string | null
  status: string
  patient_id: string
  family_name: string | null
  given_name: string | null
  birth_date: string | null
  site: string | null
  language: string | null
  interpreter_needed: boolean
  kept_from: string | null
  /** What is to be done first about something urgent; empty where nothing is. */
  urgent: string
  /** Each with its fact, and beside it who acts and what takes it off, in the same order. */
  reasons: readonly { words: string; actor: string | null; endsWith: string | null }[]
  closed: string
}

const columns = [
  "on",
  "time",
  "clinician",
  "kind",
  "status",
  "patient_id",
  "family_name",
  "given_name",
  "birth_date",
  "site",
  "urgent",
  "reasons",
  "for_whom",
  "ends_with",
  "kept_from_contact",
  "language",
  "interpreter_needed",
  "case",
]

/** The visits of a day as CSV, one row each: who comes when to whom, and what to do at the visit. Shape: `on` is the day, times are the clinic's clock's. */
export function visitsCsv({ on, visits }: { on: string; visits: readonly Visit[] }): string {
  const rows = visits.map((one) => [
    on,
    one.starts_at,
    one.clinician,
    one.kind,
    one.status,
    one.patient_id,
    one.family_name,
    one.given_name,
    one.birth_date,
    one.site,
    one.urgent,
    one.reasons.map(({ words }) => words).join("; "),
    one.reasons.map(({ actor }) => actor ?? "not known").join("; "),
    one.reasons.map(({ endsWith }) => endsWith ?? "not known").join("; "),
    one.kept_from,
    one.language,
    one.interpreter_needed,
    one.closed,
  ])
  return toCsv(columns, rows)
}
