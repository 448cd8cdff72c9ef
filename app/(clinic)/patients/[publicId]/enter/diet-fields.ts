/** The fields of a diet record by the columns of the contract. */
export const dietFields = [
  { column: "recorded_on", label: "Day", isNeeded: true },
  { column: "method", label: "Method", isNeeded: true },
  { column: "sodium_mg", label: "Sodium, mg", isNeeded: true },
  { column: "potassium_mg", label: "Potassium, mg", isNeeded: false },
  { column: "energy_kcal", label: "Energy, kcal", isNeeded: false },
  { column: "protein_g", label: "Protein, g", isNeeded: false },
] as const

export const dietMethods = [
  { word: "recall_24h", label: "24-hour recall" },
  { word: "food_record", label: "Food record" },
  { word: "food_frequency", label: "Food frequency" },
] as const
