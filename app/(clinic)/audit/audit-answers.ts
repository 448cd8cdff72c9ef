import { may } from "../../../lib/access/permissions"
import type { Caller } from "../../../lib/access/caller"
import { plainToday } from "../../../lib/domain/plain-date"
import { findLatestCheck } from "../../../lib/store/audit-check"
import {
  countAuditEntries,
  listAuditActors,
  listAuditEntries,
  type AuditFilter,
  type AuditRow,
} from "../../../lib/store/audit-log"
import { reviewAudit } from "../../../lib/store/audit-review"
import { store } from "../../../lib/store/client"
import { findNames } from "../../../lib/store/patients"
import { inCallerScope } from "../../_http/in-caller-scope"
import type { AuditView } from "./search-params"

export const entriesPerPage = 50

const reviewedDays = 30

/** Everything the screen of the audit log says. Names of patients are there for a role that may see people anyway. */
export async function auditAnswers(of: { caller: Caller; view: AuditView; timeZone: string; now: Date }) {
  const { caller, view, timeZone, now } = of
  const filter = filterOf(view, timeZone)
  const days = reviewDays({ view, timeZone, now })
  const [rows, total, actors, check, review] = await Promise.all([
    listAuditEntries(store(), { filter, take: entriesPerPage + 1, before: beforeOf(view) }),
    countAuditEntries(store(), filter),
    listAuditActors(store()),
    findLatestCheck(store()),
    reviewAudit(store(), { ...days, timeZone }),
  ])
  const entries = rows.slice(0, entriesPerPage)
  return {
    ...{ entries, total, actors, check, review, days, timeZone },
    hasOlder: rows.length > entriesPerPage,
    namesById: may(caller, "people.see") ? await namesOf(entries, view) : new Map<string, string>(),
  }
}

export type AuditAnswers = Awaited<ReturnType<typeof auditAnswers>>

export function filterOf(view: AuditView, timeZone: string): AuditFilter {
  const { from, to, actor, action, outcome, patient } = view
  return { from, to, actor, action, outcome, patient, timeZone }
}

function beforeOf({ before }: AuditView): bigint | null {
  return before === null ? null : BigInt(before)
}

/** The days asked for; the lists to be reviewed are of the last thirty where none are. */
function reviewDays(of: { view: AuditView; timeZone: string; now: Date }) {
  const { view, timeZone, now } = of
  const dayMs = 24 * 60 * 60_000
  const isOpen = view.from === null && view.to === null
  const first = new Date(now.getTime() - (reviewedDays - 1) * dayMs)
  return { from: isOpen ? plainToday(first, timeZone) : view.from, to: view.to }
}

async function namesOf(entries: readonly AuditRow[], view: AuditView): Promise<Map<string, string>> {
  const ids = entries.flatMap((entry) => entry.person ?? [])
  return inCallerScope((client) => findNames(client, view.patient === null ? ids : [...ids, view.patient]))
}
