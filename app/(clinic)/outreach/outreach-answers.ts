import "server-only"
import type { Settings } from "../../../lib/domain/settings"
import { plainToday } from "../../../lib/domain/plain-date"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { firstInOrder, type OrderFacts } from "../../../lib/outreach/between-two"
import { listedPeople, type ListedPerson } from "../../../lib/questions/listed-people"
import { listCases, type ListedCase } from "../../../lib/store/case-list"
import { store } from "../../../lib/store/client"
import { ask, callerScope } from "../../_http/ask"
import { clinicTimeZone } from "../time-zone"

/** Rows of one page. */
export const pageSize = 50

/** A case with the person it is about; null where the figures do not have them any more. */
export type RowOfList = { one: ListedCase; person: ListedPerson | null; facts: OrderFacts }

/** What the screen of the day shows. */
export async function outreachAnswers(snapshot: SnapshotMeta, now: Date) {
  const on = plainToday(now, await clinicTimeZone())
  const scope = await callerScope()
  const page = { scope, on, after: 0, limit: pageSize }
  const [urgent, others] = await Promise.all([
    listCases(store(), { ...page, which: "urgent" }),
    listCases(store(), { ...page, which: "to contact" }),
  ])
  const rows = await withPeople([...urgent, ...others], snapshot)
  return { on, urgent: rows.slice(0, urgent.length), others: rows.slice(urgent.length) }
}

async function withPeople(cases: readonly ListedCase[], snapshot: SnapshotMeta): Promise<RowOfList[]> {
  if (cases.length === 0) return []
  const listed = cases.map((one) => one.public_id).join(",")
  const people = await ask(listedPeople, { as_of: snapshot.runningAsOf, listed_ids: listed })
  const byId = new Map(people.map((person) => [person.public_id, person]))
  return cases.map((one) => {
    const row = { one, person: byId.get(one.public_id) ?? null }
    return { ...row, facts: factsOf(row, snapshot.settings) }
  })
}

function factsOf({ one, person }: Omit<RowOfList, "facts">, settings: Settings): OrderFacts {
  const days = one.case.reasons.map((held) => held.factOn)
  return {
    ...{ tier: one.tier, riskCell: person?.risk_cell ?? null, nextVisitOn: one.next_visit_on },
    firstReason: firstInOrder(one.case.reasons, { tier: one.tier, settings }),
    ...{ failureRisk: person?.failure_risk_2_years ?? null, reasons: days.length },
    // A reason without a fact is older than any day.
    oldestOn: days.includes(null) ? null : (days.flatMap((day) => day ?? []).toSorted()[0] ?? null),
  }
}
