import type { orderKeys } from "./outreach-list"

/** What decides where somebody stands, as far as it is told apart; the order of the list has it as SQL. */
export type OrderFacts = {
  readonly tier: string | null
  readonly riskCell: string | null
  readonly failureRisk: number | null
  readonly reasons: number
  readonly oldestOn: string | null
  readonly nextVisitOn: string | null
}

/**
 * What put somebody below the one shown before: the first key of the order in which the two differ. The stored order has the
 * same for neighbours in the whole clinic; a list that is narrowed, or of a part of the clinic, has other neighbours.
 */
export function differingKey(above: OrderFacts, below: OrderFacts): (typeof orderKeys)[number] {
  if (above.tier !== below.tier) return "tier"
  if (above.riskCell !== below.riskCell) return "risk cell"
  if (above.failureRisk !== below.failureRisk) return "failure risk"
  if (above.reasons !== below.reasons) return "reasons"
  if (above.oldestOn !== below.oldestOn) return "age of reasons"
  if (above.nextVisitOn !== below.nextVisitOn) return "next visit"
  return "number"
}
