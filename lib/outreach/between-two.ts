import { reasonList } from "../domain/reason-ids"
import type { Settings } from "../domain/settings"
import type { orderKeys } from "./outreach-list"
import { reasons } from "./reasons"
import { tiers } from "./types"

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

/** Reasons as a row shows them: by their tier, the clinic's order and the program's; unknown ones last. */
export function inClinicsOrder<Held extends { readonly reason: string }>(
  held: readonly Held[],
  settings: Settings,
): Held[] {
  const order: readonly string[] = reasonList(settings["outreach.reasonOrder"])
  const placeOf = ({ reason }: Held) => {
    const place = reasons.findIndex((one) => one.id === reason)
    const known = reasons[place]
    return known ? [tiers.indexOf(known.tier), order.indexOf(reason), place] : [tiers.length]
  }
  return held.toSorted((one, other) => {
    const [first, second] = [placeOf(one), placeOf(other)]
    const at = first.findIndex((place, index) => place !== second[index])
    return at < 0 ? 0 : (first[at] ?? 0) - (second[at] ?? 0)
  })
}
