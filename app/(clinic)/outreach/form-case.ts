import "server-only"
import type { Caller } from "../../../lib/access/caller"
import { may } from "../../../lib/access/permissions"
import { contactChannels, type OutreachCase } from "../../../lib/domain/outreach-case"
import { isUnseenUrgent } from "../../../lib/outreach/case-standing"
import { next } from "../../../lib/outreach/case-life"
import type { LastAct } from "../../../lib/outreach/case-events"
import type { FormCase } from "./case-sent"

/** A case as its forms need it, for who asks on a day. A list that does not know the last act offers no taking back. */
export function formCase(of: {
  one: { id: number; version: number; case: OutreachCase }
  caller: Caller
  on: string
  name: string
  /** The preferred way as the record has it. */
  preferred: string | null
  lastAct?: LastAct | null
}): FormCase {
  const { one, caller, on, name, preferred, lastAct = null } = of
  const word = preferred === "email" ? "e-mail" : preferred
  return {
    ...{ id: one.id, version: one.version, name, today: on, assignedTo: one.case.assignedTo },
    isClosed: one.case.closed !== null,
    isKept: one.case.keptFrom !== null,
    isUrgent: isUnseenUrgent(one.case),
    isMine: one.case.assignedTo === caller.userId,
    channel: contactChannels.find((channel) => channel === word) ?? null,
    mayAcknowledge: may(caller, "urgent.acknowledge"),
    mustSayWhoWasTold: !may(caller, "urgent.judge"),
    canTakeBack: next(one.case, { kind: "take back", on, by: caller.userId, last: lastAct }).ok,
  }
}
