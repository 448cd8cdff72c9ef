/** Why a row was not taken, in words a clerk can act on; `value` is kept apart so that messages name no one. */
export type Problem = { column: string | null; value: string | null; code: ProblemCode; message: string }

export type ProblemCode =
  | "field-count"
  | "bad-quote"
  | "too-long"
  | "missing-value"
  | "unreadable"
  | "unknown-word"
  | "unknown-test"
  | "unknown-unit"
  | "implausible"
  | "end-before-start"
  | "in-future"
  | "before-birth"
  | "file-rejected"
  | "erased"

/** The values of a row that a person can see and compare are cut to this length in lists. */
export const longestShownValue = 200
