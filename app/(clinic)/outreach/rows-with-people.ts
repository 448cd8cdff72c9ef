import "server-only"
import type { HeldReason } from "../../../lib/domain/outreach-case"
import type { Settings } from "../../../lib/domain/settings"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { firstInOrder, inClinicsOrder, type OrderFacts } from "../../../lib/outreach/between-two"
import { listedPeople, type ListedPerson } from "../../../lib/questions/listed-people"
import type { ListedCase } from "../../../lib/store/case-list"
import { ask } from "../../_http/ask"

/** A case with the person it is about; null where the figures do not have them any more. */
export type RowOfList = {
  one: ListedCase
  person: ListedPerson | null
  reasons: readonly HeldReason[]
  facts: OrderFacts
}

/** The cases of a page with who they are about and what decides their place. */
export async function rowsWithPeople(
  cases: readonly ListedCase[],
  snapshot: SnapshotMeta,
): Promise<RowOfList[]> {
  if (cases.length === 0) return []
  const listed = cases.map((one) => one.public_id).join(",")
  const people = await ask(listedPeople, { as_of: snapshot.runningAsOf, listed_ids: listed })
  const byId = new Map(people.map((person) => [person.public_id, person]))
  return cases.map((one) => {
    const person = byId.get(one.public_id) ?? null
    const reasons = inClinicsOrder(one.case.reasons, snapshot.settings)
    return { one, person, reasons, facts: factsOf({ one, person }, snapshot.settings) }
  })
}

function factsOf(
  { one, person }: { one: ListedCase; person: ListedPerson | null },
  settings: Settings,
): OrderFacts {
  const days = one.case.reasons.map((held) => held.factOn)
  return {
    ...{ tier: one.tier, riskCell: person?.risk_cell ?? null, nextVisitOn: one.next_visit_on },
    firstReason: firstInOrder(one.case.reasons, { tier: one.tier, settings }),
    ...{ failureRisk: person?.failure_risk_2_years ?? null, reasons: days.length },
    // A reason without a fact is older than any day.
    oldestOn: days.includes(null) ? null : (days.flatMap((day) => day ?? []).toSorted()[0] ?? null),
  }
}
