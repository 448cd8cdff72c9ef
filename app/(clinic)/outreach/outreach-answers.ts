import "server-only"
import type { Caller } from "../../../lib/access/caller"
import { plainToday } from "../../../lib/domain/plain-date"
import { workingDayBefore } from "../../../lib/domain/working-day"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { countDay, countListed, type DayCounts } from "../../../lib/store/case-counts"
import type { CaseFilters, CasePart } from "../../../lib/store/case-filters"
import { listCases } from "../../../lib/store/case-list"
import { store } from "../../../lib/store/client"
import { callerScope } from "../../_http/ask"
import { clinicTimeZone } from "../time-zone"
import { rowsWithPeople, type RowOfList } from "./rows-with-people"
import { isNarrowed, type OutreachView, type ShownList } from "./search-params"

/** Rows of one page. */
const pageSize = 50

const everyone = 1_000_000

const partOf: Readonly<Record<ShownList, CasePart>> = {
  today: "to contact",
  urgent: "urgent",
  waiting: "waiting",
  booked: "booked soon",
  closed: "closed",
  "closed-itself": "closed",
}

export type OutreachAnswers = Awaited<ReturnType<typeof outreachAnswers>>

/** What the screen of the day shows. */
export async function outreachAnswers(asked: {
  snapshot: SnapshotMeta
  caller: Caller
  view: OutreachView
  now: Date
}) {
  const { snapshot, caller, view, now } = asked
  const [timeZone, scope] = await Promise.all([clinicTimeZone(), callerScope()])
  const on = plainToday(now, timeZone)
  const since = workingDayBefore(on)
  const filters = filtersOf(view, { caller, since })
  const page = { scope, on, filters, after: view.after ?? 0, limit: pageSize }
  const which = partOf[view.show]
  const hasUrgent = view.show === "today" && view.after === null
  // Where nothing narrows the list, the counts of the day have its length already.
  const isWhole = view.after === null && !isNarrowed(view) && view.show !== "closed"
  const [counts, listed, urgentListed, urgent, others] = await Promise.all([
    countDay(store(), { scope, on, mine: caller.userId, closedItselfSince: since }),
    isWhole ? null : countListed(store(), { ...page, which }),
    isWhole || !hasUrgent ? null : countListed(store(), { ...page, which: "urgent" }),
    hasUrgent ? listCases(store(), { ...page, which: "urgent" }) : [],
    listCases(store(), { ...page, which }),
  ])
  const rows = await rowsWithPeople([...urgent, ...others], snapshot)
  const shown = { urgent: rows.slice(0, urgent.length), others: rows.slice(urgent.length) }
  const urgentTotal = hasUrgent ? (urgentListed?.total ?? counts.urgent) : 0
  const length = listed ?? { total: wholeOf(counts)[view.show] ?? 0, before: 0 }
  return { on, since, timeZone, counts, listed: length, urgentTotal, ...shown }
}

/** Everybody on the list that a view shows, however many pages it has, with the day it is of. */
export async function wholeList(asked: {
  snapshot: SnapshotMeta
  caller: Caller
  view: OutreachView
  now: Date
}): Promise<{ on: string; rows: RowOfList[] }> {
  const { snapshot, caller, view, now } = asked
  const [timeZone, scope] = await Promise.all([clinicTimeZone(), callerScope()])
  const on = plainToday(now, timeZone)
  const filters = filtersOf(view, { caller, since: workingDayBefore(on) })
  const page = { scope, on, filters, after: 0, limit: everyone }
  const cases = await listCases(store(), { ...page, which: partOf[view.show] })
  return { on, rows: await rowsWithPeople(cases, snapshot) }
}

function wholeOf(counts: DayCounts): Readonly<Partial<Record<ShownList, number>>> {
  return {
    ...{ today: counts.to_contact, urgent: counts.urgent, waiting: counts.waiting },
    ...{ booked: counts.booked_soon, "closed-itself": counts.closed_itself },
  }
}

function filtersOf(view: OutreachView, of: { caller: Caller; since: string }): CaseFilters {
  const { reason, site, clinician, language } = view
  return {
    ...{ reason, site, clinician, language },
    whose: view.whose === "mine" ? of.caller.userId : view.whose,
    closedItselfSince: view.show === "closed-itself" ? of.since : null,
  }
}
