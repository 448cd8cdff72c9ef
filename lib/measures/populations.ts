import type { Condition } from "./types"

export const hasCkd: Condition = { sql: "p.ckd", words: "chronic kidney disease", evidence: "kidney" }

/** Who is left out of a measure unless it says otherwise, in the order in which the reason is shown. */
export const usualExclusions: readonly Condition[] = [
  { sql: "p.on_dialysis", words: "on dialysis", evidence: "dialysis" },
  { sql: "p.transplant", words: "kidney transplant", evidence: "problems" },
  { sql: "p.palliative", words: "palliative care", evidence: "problems" },
  { sql: "p.pregnancy", words: "pregnant", evidence: "problems" },
]

/** Who is left out of a safety measure: only those for whom the aim of care is comfort. */
export const safetyExclusions: readonly Condition[] = [
  { sql: "p.palliative", words: "palliative care", evidence: "problems" },
]

export const notMeasured: Condition = {
  sql: "p.systolic is null",
  words: "no usable pressure in the last {bp.windowMonths} months",
  evidence: "pressure",
}

export const pressureOlderThanClass: Condition = {
  sql: "p.bp_on < p.newest_class_on",
  words: "no usable pressure since the newest class was started",
  evidence: "drugs",
}

export const adultsTo85: Condition = {
  sql: "p.age_years between 18 and 85",
  words: "age 18 to 85",
  evidence: "person",
}

export const ckdStage5: Condition = {
  sql: "p.has_ckd_5_code or p.egfr < 15",
  words: "CKD stage 5",
  evidence: "kidney",
}
