import type { OutreachCase } from "../domain/outreach-case"
import type { CaseEvent, Verdict } from "./case-events"
import { afterData, afterDay, openedBy } from "./case-data"
import { takenBack } from "./case-taken-back"
import { afterWork } from "./case-work"

/**
 * The life of a case: what an event makes of it, with the line of history that tells it, or why it is refused. `before` is
 * null for somebody who has none yet; a first look at the data with a reason opens one. Nothing ever ends a case for good.
 *
 * Rules: a case without a reason closes itself, and opens when a reason returns. Closed as done it opens 21 days later if the
 * fact has not come; declined holds 6 months and not appropriate 12, for the reasons it had; moved and deceased hold while
 * nobody saw the person since. Something urgent, or a reason that the closing did not speak for, opens it at once.
 */
export function next(before: OutreachCase | null, event: CaseEvent): Verdict {
  if (before === null) return event.kind === "data" ? openedBy(event) : { ok: false, why: "no case" }
  if (event.kind === "data") return afterData(before, event)
  if (event.kind === "take back") return takenBack(before, event)
  return event.kind === "wake" ? afterDay(before, event) : afterWork(before, event)
}
