import type { FactKind } from "../measures/fact-kind"
import { isPotassiumAboveFive, isPotassiumHigh, isPotassiumLow } from "./person-conditions"

/** A statement of the list `potassium_advice` and whom it holds for: a condition over the row `p` of the question. */
export type PotassiumAdvice = {
  readonly advice: string
  readonly sql: string
  readonly restsOn: readonly FactKind[]
}

const isSevere = "p.has_potassium_in_year and reaches(p.potassium, p.potassium_comparator, 6.0)"
const isReduced = "coalesce(p.g in ('G3a', 'G3b', 'G4', 'G5'), false) or p.on_dialysis"

/** What is said of potassium in the diet, most pressing first; conditions over values of the person and of their history. */
export const potassiumAdvice: readonly PotassiumAdvice[] = [
  { advice: "urgent", sql: isSevere, restsOn: ["potassium"] },
  { advice: "clinician-first", sql: `${isPotassiumHigh} and not (${isSevere})`, restsOn: ["potassium"] },
  {
    advice: "individual",
    sql: `${isPotassiumHigh} and (${isReduced})`,
    restsOn: ["potassium", "eGFR", "dialysis"],
  },
  {
    advice: "history",
    sql: `p.was_potassium_high and not (${isPotassiumHigh})`,
    restsOn: ["potassium above 5.5"],
  },
  { advice: "watch", sql: `${isPotassiumAboveFive} and not (${isPotassiumHigh})`, restsOn: ["potassium"] },
  { advice: "low", sql: isPotassiumLow, restsOn: ["potassium"] },
  {
    advice: "no-restriction",
    sql: `p.has_potassium_in_year and not (${isPotassiumAboveFive}) and not (${isPotassiumLow}) and not p.was_potassium_high`,
    restsOn: ["potassium"],
  },
  { advice: "unknown", sql: "not p.has_potassium_in_year", restsOn: [] },
  { advice: "healthy-intake", sql: isReduced, restsOn: ["eGFR", "dialysis"] },
  { advice: "salt-substitute", sql: "p.against_substitute <> ''", restsOn: [] },
]

type AgainstSaltSubstitute = {
  readonly words: string
  readonly sql: string
  readonly restsOn: readonly FactKind[]
}

/** What in somebody's record speaks against a salt substitute; conditions over the row `p` of `patient_month`. */
export const againstSaltSubstitute: readonly AgainstSaltSubstitute[] = [
  { words: "a RAS blocker is active", sql: "p.on_any_ras_blocker", restsOn: ["RAS blockers"] },
  {
    words: "a mineralocorticoid antagonist is active",
    sql: "p.on_steroidal_mra or p.on_finerenone",
    restsOn: ["mineralocorticoid antagonists"],
  },
  {
    words: "a diuretic that spares potassium is active",
    sql: "array_contains(p.kinds, 'potassium_sparing')",
    restsOn: ["potassium-sparing diuretics"],
  },
  { words: "on dialysis", sql: "p.on_dialysis", restsOn: ["dialysis"] },
  { words: "eGFR below 30", sql: "p.egfr < 30", restsOn: ["eGFR"] },
  { words: "eGFR not known", sql: "p.egfr is null", restsOn: [] },
  { words: "potassium not known", sql: "not p.has_potassium_in_year", restsOn: [] },
  {
    words: "potassium of 5.0 mmol/L or more",
    sql: "p.has_potassium_in_year and reaches(p.potassium, p.potassium_comparator, 5.0)",
    restsOn: ["potassium"],
  },
]

/** A `with` entry: every result above 5.5 mmol/L up to `$as_of` that was not haemolysed, with its row; the latest has place 1. */
export const highPotassiums = `high_potassiums as (
  select r.patient_id, r.day, 'labs:' || r.import_id || ':' || r.line as source,
    row_number() over (partition by r.patient_id order by r.collected_at desc, r.potassium desc, r.import_id, r.line) as place
  from potassium_results as r
  where not r.is_haemolysed and exceeds(r.potassium, r.comparator, 5.5) and r.day <= cast($as_of as date)
)`
