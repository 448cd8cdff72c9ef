import { reasonList } from "../domain/reason-ids"
import type { Settings } from "../domain/settings"
import type { orderKeys } from "./outreach-list"
import { reasons } from "./reasons"

/** What decides where somebody stands, as far as it is told apart; the order of the list has it as SQL. */
export type OrderFacts = {
  readonly tier: string | null
  /** The first reason of that tier in the order the clinic set; null where it set none. */
  readonly firstReason: string | null
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
  if (above.firstReason !== below.firstReason) return "order of reasons"
  if (above.riskCell !== below.riskCell) return "risk cell"
  if (above.failureRisk !== below.failureRisk) return "failure risk"
  if (above.reasons !== below.reasons) return "reasons"
  if (above.oldestOn !== below.oldestOn) return "age of reasons"
  if (above.nextVisitOn !== below.nextVisitOn) return "next visit"
  return "number"
}

/** Of the reasons somebody has, the first of their tier in the order the clinic set; null where it set none. */
export function firstInOrder(
  held: readonly { reason: string }[],
  { tier, settings }: { tier: string | null; settings: Settings },
): string | null {
  const order = reasonList(settings["outreach.reasonOrder"])
  const ofTier = reasons.filter((one) => one.tier === tier && held.some(({ reason }) => reason === one.id))
  return order.find((id) => ofTier.some((one) => one.id === id)) ?? null
}
