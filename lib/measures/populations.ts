import type { Condition } from "./types"

export const hasCkd: Condition = { sql: "p.ckd", words: "chronic kidney disease" }

/** Who is left out of a measure unless it says otherwise, in the order in which the reason is shown. */
export const usualExclusions: readonly Condition[] = [
  { sql: "p.on_dialysis", words: "on dialysis" },
  { sql: "p.transplant", words: "kidney transplant" },
  { sql: "p.palliative", words: "palliative care" },
  { sql: "p.pregnancy", words: "pregnant" },
]

export const notMeasured: Condition = {
  sql: "p.systolic is null",
  words: "no usable pressure in the window",
}
