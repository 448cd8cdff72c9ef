import { isDeepStrictEqual } from "node:util"
import type { OutreachCase } from "../domain/outreach-case"
import type { TakeBackEvent, Verdict } from "./case-events"

/**
 * Somebody takes back their own last act on the day they did it: a new line, and the case as it was before. Not once anybody
 * else or the data changed the case since, since what came after was done knowing of it; and never a taking back itself.
 */
export function takenBack(before: OutreachCase, { last, on, by }: TakeBackEvent): Verdict {
  if (last === null || last.kind === "take back") return { ok: false, why: "nothing to take back" }
  if (last.by !== by) return { ok: false, why: "done by somebody else" }
  if (last.on !== on) return { ok: false, why: "done on another day" }
  if (!isDeepStrictEqual(last.after, before)) return { ok: false, why: "changed since" }
  const line = { kind: "take back", on, from: before.state, to: last.before.state, why: null } as const
  return { ok: true, case: last.before, line: { ...line, began: [], ended: [] } }
}
