import { daysAfter } from "../domain/day-sums"
import {
  awaitedDays,
  type CloseReason,
  letterOutcomes,
  type ContactOutcome,
  type OutreachCase,
} from "../domain/outreach-case"
import type { PlainDate } from "../domain/plain-date"
import { reopened } from "./case-data"
import type { HistoryLine, Refusal, Verdict, WorkEvent } from "./case-events"
import { isUnseenUrgent } from "./case-standing"

const longestWaitDays = 90

/** Outcomes after which a person says when to try again. */
const asksForDay: readonly ContactOutcome[] = [
  "wants a call back",
  "message left",
  "no answer",
  "language barrier",
  "proxy reached",
  "letter sent",
]
const isAwaited: readonly ContactOutcome[] = ["reached, agreed", "reached, already done"]

const closing: Readonly<Partial<Record<ContactOutcome, CloseReason>>> = {
  "reached, declined": "declined",
  moved: "moved",
  deceased: "deceased",
}

/** What a person does with a case. */
export function afterWork(before: OutreachCase, event: WorkEvent): Verdict {
  switch (event.kind) {
    case "note":
      return done({ before, event })
    case "assign":
      if (before.closed !== null) return refused("closed")
      return done({ before, event, after: { assignedTo: event.to } })
    case "take":
      return taken(before, event)
    case "attempt":
      return attempted(before, event)
    case "snooze":
      return snoozed(before, event)
    case "acknowledge":
      return acknowledged(before, event)
    case "close":
      return closedByHand(before, event)
    case "reopen":
      if (before.closed === null) return refused("not closed")
      if (before.reasons.length === 0) return refused("no reason holds")
      return { ok: true, ...reopened(before, { on: event.on, why: "by hand" }) }
  }
}

function taken(before: OutreachCase, event: WorkEvent): Verdict {
  if (before.closed !== null) return refused("closed")
  if (before.keptFrom !== null) return refused(before.keptFrom)
  if (before.assignedTo !== null && before.assignedTo !== event.by) return refused("taken by somebody else")
  return done({ before, event, after: { assignedTo: event.by } })
}

/** Whoever asked not to be contacted, left or died is not; what was said before that was known can be noted. */
function attempted(before: OutreachCase, event: WorkEvent & { kind: "attempt" }): Verdict {
  if (before.closed !== null) return refused("closed")
  if (before.keptFrom !== null) return refused(before.keptFrom)
  if (letterOutcomes.includes(event.outcome) && event.channel !== "letter") return refused("only of a letter")
  const reason = closing[event.outcome]
  if (reason !== undefined && mayClose(before, reason))
    return done({ before, event, after: closedAs(before, { on: event.on, reason }), why: reason })
  const again = event.againOn ?? (isAwaited.includes(event.outcome) ? daysAfter(event.on, awaitedDays) : null)
  if (again === null && asksForDay.includes(event.outcome)) return refused("day is missing")
  const wrong = again === null ? null : wrongDay(again, event.on)
  if (wrong !== null) return refused(wrong)
  return done({ before, event, after: { state: "open", snoozedUntil: null, againOn: again } })
}

function snoozed(before: OutreachCase, event: WorkEvent & { kind: "snooze" }): Verdict {
  if (before.closed !== null) return refused("closed")
  if (before.keptFrom !== null) return refused(before.keptFrom)
  if (isUnseenUrgent(before)) return refused("urgent, not acknowledged")
  const wrong = wrongDay(event.until, event.on)
  if (wrong !== null) return refused(wrong)
  return done({ before, event, after: { state: "snoozed", snoozedUntil: event.until, againOn: null } })
}

function acknowledged(before: OutreachCase, event: WorkEvent): Verdict {
  if (before.closed !== null) return refused("closed")
  if (!before.reasons.some((reason) => reason.isUrgent)) return refused("nothing urgent")
  if (before.acknowledgedBy !== null) return refused("acknowledged already")
  return done({ before, event, after: { acknowledgedBy: event.by } })
}

function closedByHand(before: OutreachCase, event: WorkEvent & { kind: "close" }): Verdict {
  if (before.closed !== null) return refused("closed")
  if (!mayClose(before, event.reason)) return refused("urgent, not acknowledged")
  return done({ before, event, after: closedAs(before, event), why: event.reason })
}

/** What is urgent is closed after somebody saw it, unless there is nobody any more to be treated here. */
function mayClose(one: OutreachCase, reason: CloseReason): boolean {
  return reason === "moved" || reason === "deceased" || !isUnseenUrgent(one)
}

function closedAs(
  one: OutreachCase,
  { on, reason }: { on: PlainDate; reason: CloseReason },
): Partial<OutreachCase> {
  const heldFor = one.reasons.map((held) => ({ reason: held.reason, isUrgent: held.isUrgent }))
  return { state: "closed", snoozedUntil: null, againOn: null, closed: { on, reason, heldFor } }
}

function wrongDay(day: PlainDate, on: PlainDate): Refusal | null {
  if (day <= on) return "day is not later"
  return day > daysAfter(on, longestWaitDays) ? "day is beyond 90 days" : null
}

type Done = {
  before: OutreachCase
  event: WorkEvent
  after?: Partial<OutreachCase>
  why?: CloseReason
}

function done({ before, event, after = {}, why }: Done): Verdict {
  if (event.kind === "reopen") throw new RangeError("a case opened by hand has a line of its own")
  const one = { ...before, ...after }
  const line: HistoryLine = {
    ...{ kind: event.kind, on: event.on, from: before.state, to: one.state, why: why ?? null },
    ...{ began: [], ended: [] },
  }
  return { ok: true, case: one, line }
}

function refused(why: Refusal): Verdict {
  return { ok: false, why }
}
