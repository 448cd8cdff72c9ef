import { z } from "zod"
import type { PlainDate } from "./plain-date"

export const caseStates = ["open", "snoozed", "closed"] as const

export type CaseState = (typeof caseStates)[number]

/** How somebody was contacted. */
export const contactChannels = ["phone", "text", "e-mail", "letter", "in person", "portal"] as const

export type ContactChannel = (typeof contactChannels)[number]

/** What came of an attempt. */
export const contactOutcomes = [
  "reached, agreed",
  "reached, declined",
  "reached, already done",
  "wants a call back",
  "message left",
  "no answer",
  "wrong number",
  "letter sent",
  "letter returned",
  "moved",
  "deceased",
  "language barrier",
  "proxy reached",
] as const

export type ContactOutcome = (typeof contactOutcomes)[number]

/** What comes of a letter and of nothing else. */
export const letterOutcomes: readonly ContactOutcome[] = ["letter sent", "letter returned"]

/** After somebody agreed, or said that it is done, the fact is awaited so long. Common practice, no source. */
export const awaitedDays = 21

/** Why a person closes a case. */
export const closeReasons = ["done", "declined", "moved", "deceased", "not appropriate"] as const

export type CloseReason = (typeof closeReasons)[number]

/** Why a case is closed: by a person, or by the data. */
export const closings = [...closeReasons, "no reason left"] as const

export type Closing = (typeof closings)[number]

/** Why nobody may contact a person. */
export const keptFromContact = ["asked not to be contacted", "left", "died"] as const

export type KeptFrom = (typeof keptFromContact)[number]

/** Why a reason is gone: a fact took it off, the clinic did, or the person is not followed here any more. */
export type EndedWhy = "by the facts" | "switched off" | "not followed"

/** A reason to contact somebody as it holds on a day, with the fact behind it. */
export const HeldReason = z.object({
  reason: z.string(),
  isUrgent: z.boolean(),
  factOn: z.string().nullable(),
  value: z.number().nullable(),
  secondValue: z.number().nullable(),
  comparator: z.string().nullable(),
  fallsOutOn: z.string().nullable(),
})

export type HeldReason = z.infer<typeof HeldReason>

/** What is being done about the reasons to contact one person; each person has one case at most, for good. */
export type OutreachCase = {
  readonly state: CaseState
  /** Those that hold by the latest look at the data, also while the case is closed. */
  readonly reasons: readonly HeldReason[]
  readonly keptFrom: KeptFrom | null
  /** The account of whoever works on it. */
  readonly assignedTo: string | null
  readonly snoozedUntil: PlainDate | null
  /** After an attempt: the day to try again, until which nobody is to. */
  readonly againOn: PlainDate | null
  /** Who saw the urgent reasons that hold; null again as soon as another comes or a later fact. */
  readonly acknowledgedBy: string | null
  readonly closed: {
    readonly on: PlainDate
    readonly reason: Closing
    /** The reasons the closing speaks for. */
    readonly heldFor: readonly { readonly reason: string; readonly isUrgent: boolean }[]
  } | null
  /** Counts how often it was opened; attempts are counted within a round. */
  readonly round: number
}

/** A case as a line of history keeps it. */
export const KeptCase = z.object({
  state: z.enum(caseStates),
  reasons: z.array(HeldReason),
  keptFrom: z.enum(keptFromContact).nullable(),
  assignedTo: z.string().nullable(),
  snoozedUntil: z.string().nullable(),
  againOn: z.string().nullable(),
  acknowledgedBy: z.string().nullable(),
  closed: z
    .object({
      on: z.string(),
      reason: z.enum(closings),
      heldFor: z.array(z.object({ reason: z.string(), isUrgent: z.boolean() })),
    })
    .nullable(),
  round: z.number(),
})
