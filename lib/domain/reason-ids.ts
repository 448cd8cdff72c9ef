/** The reasons that cannot wait; a clinic cannot switch one off. */
export const urgentReasonIds = ["pressure-very-high", "potassium-very-high", "drug-stopped-abruptly"] as const

/** Every reason to contact a person, in the order in which a row shows them unless the clinic sets another. */
export const reasonIds = [
  ...urgentReasonIds,
  "potassium-high",
  "pressure-high",
  "pressure-low-on-drugs",
  "tests-after-start-due",
  "protein-without-ras-blocker",
  "above-target-on-several",
  "above-target",
  "pressure-not-measured",
  "urine-albumin-due",
  "kidney-tests-due",
  "diet-record-due",
  "lost-to-follow-up",
  "pressure-falls-out",
  "urine-falls-out",
] as const

export type ReasonId = (typeof reasonIds)[number]

/** The reasons a setting names, with blanks between. */
export function reasonList(text: string): ReasonId[] {
  return text.split(" ").flatMap((word) => reasonIds.find((id) => id === word) ?? [])
}

/** What keeps a text from being a list of reasons, or null. */
export function reasonListProblem(text: string): string | null {
  const words = text === "" ? [] : text.split(" ")
  if (words.some((word) => !reasonIds.some((id) => id === word)))
    return "Must be names of reasons with blanks between."
  return new Set(words).size < words.length ? "Names a reason twice." : null
}
