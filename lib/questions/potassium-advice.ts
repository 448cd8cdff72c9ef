/** A statement of the list `potassium_advice` and whom it holds for: a condition over the row `p` of the question. */
export type PotassiumAdvice = {
  readonly advice: string
  readonly sql: string
}

const isHigh = "p.has_potassium_in_year and p.is_potassium_high"
const isSevere = "p.has_potassium_in_year and reaches(p.potassium, p.potassium_comparator, 6.0)"
const isAboveFive = "p.has_potassium_in_year and exceeds(p.potassium, p.potassium_comparator, 5.0)"
const isLow = "p.has_potassium_in_year and not reaches(p.potassium, p.potassium_comparator, 3.5)"
const isReduced = "coalesce(p.g in ('G3a', 'G3b', 'G4', 'G5'), false) or p.on_dialysis"

/** What is said of potassium in the diet, most pressing first; conditions over values of the person and of their history. */
export const potassiumAdvice: readonly PotassiumAdvice[] = [
  { advice: "urgent", sql: isSevere },
  { advice: "clinician-first", sql: `${isHigh} and not (${isSevere})` },
  { advice: "individual", sql: `${isHigh} and (${isReduced})` },
  { advice: "history", sql: `p.was_potassium_high and not (${isHigh})` },
  { advice: "watch", sql: `${isAboveFive} and not (${isHigh})` },
  { advice: "low", sql: isLow },
  {
    advice: "no-restriction",
    sql: `p.has_potassium_in_year and not (${isAboveFive}) and not (${isLow}) and not p.was_potassium_high`,
  },
  { advice: "unknown", sql: "not p.has_potassium_in_year" },
  { advice: "healthy-intake", sql: isReduced },
  { advice: "salt-substitute", sql: "p.against_substitute <> ''" },
]
