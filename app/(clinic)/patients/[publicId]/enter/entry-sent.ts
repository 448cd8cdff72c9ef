/** What came of a form of typed rows. `saved` counts the times it was stored, so that the form is empty again after each. */
export type EntrySent = {
  /** What is wrong with a field, by its name. */
  wrong: Readonly<Record<string, string>>
  /** What is wrong with the form as a whole. */
  problem: string | null
  saved: number
  /** How many rows were stored last. */
  rows: number
  typed: Readonly<Record<string, string>>
}

export const nothingEntered: EntrySent = { wrong: {}, problem: null, saved: 0, rows: 0, typed: {} }
