/** The ten files of an extract, in the order in which an import writes them. */
export const factKinds = [
  "staff",
  "patients",
  "visits",
  "appointments",
  "readings",
  "labs",
  "medications",
  "problems",
  "allergies",
  "diet",
] as const

export type FactKind = (typeof factKinds)[number]
