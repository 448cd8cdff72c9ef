import type { HeldReason, OutreachCase } from "../domain/outreach-case"
import type { PlainDate } from "../domain/plain-date"
import type { DataEvent, HistoryLine, Returning, Verdict, WakeEvent } from "./case-events"
import { heldUntil, isUnseenUrgent } from "./case-standing"

/** The first look at somebody: a case opens when there is a reason, and there is none without. */
export function openedBy(event: DataEvent): Verdict {
  if (event.reasons.length === 0) return { ok: false, why: "no case" }
  const opened: OutreachCase = {
    ...{ state: "open", reasons: event.reasons, keptFrom: event.keptFrom },
    ...{ assignedTo: null, snoozedUntil: null, againOn: null, acknowledgedBy: null, closed: null },
    round: 1,
  }
  return { ok: true, case: opened, line: { ...plain(event.on), kind: "opened", began: event.reasons } }
}

/** A later look at the data: reasons come and go, the last one that goes closes the case, one that returns opens it. */
export function afterData(before: OutreachCase, event: DataEvent): Verdict {
  const change = changeOf(before, event)
  const seen = { ...before, reasons: event.reasons, keptFrom: event.keptFrom }
  if (before.closed !== null)
    return afterClosed({ ...seen, closed: stillSpeaking(before.closed, event) }, event)
  if (event.reasons.length === 0) return closedItself(seen, { event, change })
  const acknowledged = { ...seen, acknowledgedBy: stillAcknowledged(before, event) }
  const woken = wokenOf(acknowledged, event.on)
  if (woken) return { ok: true, case: woken.case, line: { ...woken.line, ...change } }
  if (change.began.length === 0 && change.ended.length === 0)
    return { ok: true, case: acknowledged, line: null }
  const line = { ...plain(event.on), kind: "reasons changed", from: before.state, to: before.state } as const
  return { ok: true, case: acknowledged, line: { ...line, ...change } }
}

/** A day has come: who was snoozed until it is open again, and a closing may no longer speak for its reasons. */
export function afterDay(before: OutreachCase, event: WakeEvent): Verdict {
  if (before.closed !== null) return afterClosed(before, { ...event, lastSeenOn: null })
  const woken = wokenOf(before, event.on)
  return woken ? { ok: true, ...woken } : { ok: true, case: before, line: null }
}

/** Snoozed people come back on their day, and at once when something urgent holds that nobody acknowledged. */
function wokenOf(one: OutreachCase, on: PlainDate) {
  if (one.state !== "snoozed") return null
  const isUrgent = isUnseenUrgent(one)
  if (!isUrgent && one.snoozedUntil !== null && one.snoozedUntil > on) return null
  const line: HistoryLine = {
    ...{ ...plain(on), kind: "woken", from: "snoozed", to: "open" },
    why: isUrgent ? "now urgent" : "day has come",
  }
  return { case: { ...one, state: "open", snoozedUntil: null } as const, line }
}

function closedItself(
  one: OutreachCase,
  { event, change }: { event: DataEvent; change: Pick<HistoryLine, "began" | "ended"> },
): Verdict {
  const { on, switchedOff = [] } = event
  const isSwitchedOff = change.ended.some(({ reason }) => switchedOff.includes(reason))
  const closed = { on, reason: "no reason left", heldFor: [] } as const
  const idle = { snoozedUntil: null, againOn: null, acknowledgedBy: null } as const
  const line = { ...plain(on), kind: "closed itself", from: one.state, to: "closed" } as const
  return {
    ...{ ok: true, case: { ...one, ...idle, state: "closed", closed } },
    line: { ...line, ...change, why: isSwitchedOff ? "reason switched off" : "no reason left" },
  }
}

function afterClosed(one: OutreachCase, event: { on: PlainDate; lastSeenOn: PlainDate | null }): Verdict {
  const why = returning(one, event)
  if (why === null) return { ok: true, case: one, line: null }
  return { ok: true, ...reopened(one, { on: event.on, why }) }
}

/** The same case open again, in a new round of attempts. */
export function reopened(one: OutreachCase, how: { on: PlainDate; why: Returning | "by hand" }) {
  const open = {
    state: "open",
    closed: null,
    againOn: null,
    snoozedUntil: null,
    acknowledgedBy: null,
  } as const
  const line: HistoryLine = {
    ...{ ...plain(how.on), kind: "reopened", from: "closed", to: "open", why: how.why },
    began: one.reasons,
  }
  return { case: { ...one, ...open, round: one.round + 1 }, line }
}

/** Why a closed case opens again, or null while its closing speaks for every reason that holds. */
function returning(
  one: OutreachCase,
  { on, lastSeenOn }: { on: PlainDate; lastSeenOn: PlainDate | null },
): Returning | null {
  const { closed, reasons } = one
  if (closed === null || reasons.length === 0) return null
  if (closed.reason === "no reason left") return "reason returned"
  if (closed.reason === "moved" || closed.reason === "deceased")
    return lastSeenOn !== null && lastSeenOn > closed.on ? "seen since" : null
  const heldBefore = (reason: HeldReason) => closed.heldFor.find((held) => held.reason === reason.reason)
  const isLater = (reason: HeldReason) => reason.factOn !== null && reason.factOn > closed.on
  if (reasons.some((one) => one.isUrgent && (heldBefore(one)?.isUrgent !== true || isLater(one))))
    return "now urgent"
  if (closed.heldFor.length === 0) return "reason returned"
  if (reasons.some((one) => heldBefore(one) === undefined)) return "new reason"
  const until = heldUntil(closed)
  if (until === null || on < until) return null
  return closed.reason === "done" ? "fact has not come" : "time is over"
}

/** Done is done once the fact came: a reason that ended since is a new one when it returns. A refusal stays one. */
function stillSpeaking(closed: NonNullable<OutreachCase["closed"]>, { reasons }: DataEvent) {
  if (closed.reason !== "done") return closed
  return {
    ...closed,
    heldFor: closed.heldFor.filter((held) => reasons.some((reason) => reason.reason === held.reason)),
  }
}

/** Who acknowledged did so for what was there: another urgent reason, or a later fact of one, is seen by nobody yet. */
function stillAcknowledged(before: OutreachCase, { reasons }: DataEvent): string | null {
  const urgent = reasons.filter((reason) => reason.isUrgent)
  const isKnown = (now: HeldReason) =>
    before.reasons.some((then) => then.reason === now.reason && then.isUrgent && then.factOn === now.factOn)
  return urgent.length > 0 && urgent.every(isKnown) ? before.acknowledgedBy : null
}

function changeOf(before: OutreachCase, event: DataEvent): Pick<HistoryLine, "began" | "ended"> {
  const isAmong = (reasons: readonly HeldReason[], one: HeldReason) =>
    reasons.some((other) => other.reason === one.reason)
  return {
    began: event.reasons.filter((one) => !isAmong(before.reasons, one)),
    ended: before.reasons
      .filter((one) => !isAmong(event.reasons, one))
      .map((one) => event.ended.find((now) => now.reason === one.reason) ?? one),
  }
}

function plain(on: PlainDate) {
  return { on, from: null, to: "open", why: null, began: [], ended: [] } as const
}
