import type {
  CaseState,
  CloseReason,
  ContactChannel,
  ContactOutcome,
  HeldReason,
  KeptFrom,
  OutreachCase,
} from "../domain/outreach-case"
import type { PlainDate } from "../domain/plain-date"

/** A look at the data: the reasons that hold now, and what became of those that held before and do not now. */
export type DataEvent = {
  readonly kind: "data"
  readonly on: PlainDate
  readonly reasons: readonly HeldReason[]
  readonly keptFrom: KeptFrom | null
  /** The latest day of which there is a visit or a fact behind a reason. */
  readonly lastSeenOn: PlainDate | null
  /** The facts as they are now of the reasons that ended, as far as there are any. */
  readonly ended: readonly HeldReason[]
  /** The reasons that the clinic does not use. */
  readonly switchedOff?: readonly string[]
}

/** What a person does with a case. */
export type CaseAct =
  | { readonly kind: "assign"; readonly to: string | null }
  | { readonly kind: "take" }
  | {
      readonly kind: "attempt"
      readonly channel: ContactChannel
      readonly outcome: ContactOutcome
      readonly againOn: PlainDate | null
    }
  | { readonly kind: "snooze"; readonly until: PlainDate }
  | { readonly kind: "close"; readonly reason: CloseReason }
  | { readonly kind: "note" }
  | { readonly kind: "acknowledge" }
  | { readonly kind: "reopen" }

/** The same on a day, `by` an account. */
export type WorkEvent = CaseAct & { readonly on: PlainDate; readonly by: string }

/** The calendar has come to a day. */
export type WakeEvent = { readonly kind: "wake"; readonly on: PlainDate }

/** The latest line of a case's history: who did it, what, and the case before and after; null where the data did it. */
export type LastAct = {
  readonly by: string
  readonly on: PlainDate
  readonly kind: string
  readonly before: OutreachCase
  readonly after: OutreachCase
}

/** Somebody takes back what they did last. */
export type TakeBackEvent = {
  readonly kind: "take back"
  readonly on: PlainDate
  readonly by: string
  readonly last: LastAct | null
}

export type CaseEvent = DataEvent | WorkEvent | WakeEvent | TakeBackEvent

/** Why a case opened again by itself. */
export type Returning =
  "reason returned" | "new reason" | "now urgent" | "fact has not come" | "time is over" | "seen since"

/** One line of a case's history; nothing of it is ever changed. */
export type HistoryLine = {
  readonly kind:
    | ("opened" | "reasons changed" | "woken" | "reopened" | "closed itself")
    | Exclude<WorkEvent["kind"], "reopen">
    | "take back"
  readonly on: PlainDate
  readonly from: CaseState | null
  readonly to: CaseState
  readonly why:
    Returning | "day has come" | "by hand" | "no reason left" | "reason switched off" | CloseReason | null
  readonly began: readonly HeldReason[]
  readonly ended: readonly HeldReason[]
}

export type Refusal =
  | KeptFrom
  | "no case"
  | "closed"
  | "not closed"
  | "taken by somebody else"
  | "only of a letter"
  | "day is missing"
  | "day is not later"
  | "day is beyond 90 days"
  | "urgent, not acknowledged"
  | "nothing urgent"
  | "acknowledged already"
  | "no reason holds"
  | "nothing to take back"
  | "done by somebody else"
  | "done on another day"
  | "changed since"

/** What came of an event. Without a line the case's life went on as it was, at most with newer facts. */
export type Verdict =
  | { readonly ok: true; readonly case: OutreachCase; readonly line: HistoryLine | null }
  | { readonly ok: false; readonly why: Refusal }
