import { daysAfter, monthsAfter } from "../domain/day-sums"
import type { Closing, KeptFrom, OutreachCase } from "../domain/outreach-case"
import type { PlainDate } from "../domain/plain-date"

/** Where a case stands on a day. Only who is "to contact" stands on a list of people to contact. */
export type CaseStanding =
  | { readonly kind: "to contact" }
  | { readonly kind: "urgent" }
  | { readonly kind: "kept"; readonly from: KeptFrom }
  | { readonly kind: "snoozed" | "waiting"; readonly until: PlainDate }
  | { readonly kind: "closed"; readonly reason: Closing; readonly until: PlainDate | null }

/**
 * Where a case stands on a day: closed; kept from contact; urgent and seen by nobody, which neither a snooze nor an attempt
 * hides; snoozed; waiting for the day to try again; or to contact.
 */
export function standingOf(one: OutreachCase, on: PlainDate): CaseStanding {
  if (one.closed !== null) return { kind: "closed", reason: one.closed.reason, until: heldUntil(one.closed) }
  if (one.keptFrom !== null) return { kind: "kept", from: one.keptFrom }
  if (isUnseenUrgent(one)) return { kind: "urgent" }
  if (one.snoozedUntil !== null && one.snoozedUntil > on) return { kind: "snoozed", until: one.snoozedUntil }
  if (one.againOn !== null && one.againOn > on) return { kind: "waiting", until: one.againOn }
  return { kind: "to contact" }
}

/** Whether something urgent holds that nobody acknowledged. */
export function isUnseenUrgent(one: OutreachCase): boolean {
  return one.acknowledgedBy === null && one.reasons.some((reason) => reason.isUrgent)
}

/**
 * The day on which a closing no longer speaks for the reasons it had; null where it does so until the data say otherwise.
 * Ordered is not done: what has not come after 21 days is asked for again. Source of the lengths: common practice, no source.
 */
export function heldUntil(closed: { on: PlainDate; reason: Closing }): PlainDate | null {
  switch (closed.reason) {
    case "done":
      return daysAfter(closed.on, 21)
    case "declined":
      return monthsAfter(closed.on, 6)
    case "not appropriate":
      return monthsAfter(closed.on, 12)
    case "moved":
    case "deceased":
    case "no reason left":
      return null
  }
}
