import type { DecisionTopic } from "../../../lib/domain/clinician-decisions"

/** What came of a form of a decision. `saved` counts what was recorded, so that the form is empty again after each. */
export type DecisionSent = {
  problem: string | null
  /** The field that the problem is about; null for the form as a whole. */
  field: "why" | "until" | "note" | null
  saved: number
  /** The decision to send as the one that was seen, where another was made meanwhile; undefined while the page's own is it. */
  shownId: number | null | undefined
  typed: Readonly<Record<string, string>>
}

export const nothingSent: DecisionSent = {
  ...{ problem: null, field: null, saved: 0, shownId: undefined, typed: {} },
}

/** Of whom and about what a form decides. */
export type FormDecision = {
  publicId: string
  topic: DecisionTopic
  /** The decision on record as the page shows it; null for none. */
  shownId: number | null
  /** What the form is about, for the name of its button: "ACE inhibitor or ARB", with the person's name in a list. */
  about: string
  today: string
  /** The day at which the figures of the running month stand. */
  asOf: string
}
