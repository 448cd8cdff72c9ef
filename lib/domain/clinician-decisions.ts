import { z } from "zod"
import { monthsAfter } from "./day-sums"
import type { PlainDate } from "./plain-date"
import { TypedText } from "./typed-text"

/** What a clinician decides about, by the measures that ask for it. */
export const decisionTopics = ["ras_blocker", "pressure", "sglt2_inhibitor", "diet"] as const

export type DecisionTopic = (typeof decisionTopics)[number]

/** What was decided. The middle four are an exception of the topic's measures while they hold; a plan and wrong data are none. */
export const decisionKinds = [
  "planned",
  "contraindicated",
  "not tolerated",
  "patient declined",
  "deferred",
  "wrong data",
] as const

export type DecisionKind = (typeof decisionKinds)[number]

/** Why, from a short list; what is not on it is said in the note. Common practice, no source. */
export const decisionReasons: Readonly<Record<DecisionKind, readonly string[]>> = {
  planned: ["prescribed today", "at the next visit", "after a test", "with another clinic", "other"],
  contraindicated: [
    ...["angioedema before", "pregnancy or one that is planned", "potassium too high", "pressure too low"],
    ...["narrowed arteries of both kidneys", "another drug", "other"],
  ],
  "not tolerated": [
    ...["cough", "dizziness or falls", "potassium rose", "creatinine rose", "allergy or rash", "other"],
  ],
  "patient declined": [
    "number of tablets",
    "worried about side effects",
    "cost",
    "wishes no treatment",
    "other",
  ],
  deferred: [
    "acute illness",
    "test to be repeated first",
    "operation or contrast",
    "settling after a change",
    "other",
  ],
  "wrong data": [
    "drug list is not complete",
    "result is not this person's",
    "problem list is wrong",
    "other",
  ],
}

export const longestNote = 1000

/** A decision as somebody makes it; "other" asks for a note and "deferred" for the day until which it holds. */
export const NewDecision = z
  .object({
    topic: z.enum(decisionTopics),
    kind: z.enum(decisionKinds),
    reason: z.string(),
    note: TypedText.max(longestNote).nullable(),
    endsOn: z.string().nullable(),
  })
  .refine(({ kind, reason }) => decisionReasons[kind].includes(reason))

export type NewDecision = z.infer<typeof NewDecision>

/** What keeps a decision from being made on a day. */
export type DecisionProblem = "note is missing" | "day is missing" | "day is not later" | "day is too far"

/** The longest that a decision may hold before somebody looks again, in days: five years. Common practice, no source. */
export const longestDays = 1827

/** What is wrong with a decision made `on` a day; null when nothing is. */
export function decisionProblem(decision: NewDecision, on: PlainDate): DecisionProblem | null {
  const { kind, reason, note, endsOn } = decision
  if (reason === "other" && note === null) return "note is missing"
  if (endsOn === null) return kind === "deferred" ? "day is missing" : null
  if (endsOn <= on) return "day is not later"
  return daysBetween(on, endsOn) > longestDays ? "day is too far" : null
}

function daysBetween(from: PlainDate, to: PlainDate): number {
  return (Date.parse(to) - Date.parse(from)) / 86_400_000
}

/** A decision as it stands on record. */
export type ClinicianDecision = NewDecision & {
  readonly id: number
  readonly madeOn: PlainDate
  readonly madeAt: Date
  readonly madeBy: string
  readonly undoneOn: PlainDate | null
  readonly undoneBy: string | null
  /** The decision that took its place, where it was not undone by hand. */
  readonly replacedById: number | null
}

/**
 * The day on which a decision no longer holds: its own, else so many months after it was made. Null for a plan and for wrong
 * data without a day, which stand until somebody takes them back.
 */
export function holdsUntil(
  { kind, madeOn, endsOn }: Pick<ClinicianDecision, "kind" | "madeOn" | "endsOn">,
  months: number,
): PlainDate | null {
  if (endsOn !== null) return endsOn
  return kind === "planned" || kind === "wrong data" ? null : monthsAfter(madeOn, months)
}

/** Whether a decision holds on a day, with so many months for one that names no end. */
export function holdsOn(
  decision: Pick<ClinicianDecision, "kind" | "madeOn" | "endsOn" | "undoneOn">,
  asked: { months: number; on: PlainDate },
): boolean {
  const until = holdsUntil(decision, asked.months)
  const { madeOn, undoneOn } = decision
  return (
    madeOn <= asked.on && (undoneOn === null || undoneOn > asked.on) && (until === null || until > asked.on)
  )
}
