import { reasonList, reasonIds, type ReasonId } from "../../../../lib/domain/reason-ids"
import { withSettings } from "../../../../lib/domain/setting-words"
import type { Settings } from "../../../../lib/domain/settings"
import { reasons } from "../../../../lib/outreach/reasons"
import { tiers, type Tier } from "../../../../lib/outreach/types"
import { sentenceCase } from "../../../../lib/speech/format"

export type ReasonRow = {
  id: ReasonId
  name: string
  actor: string
  endsWith: string
  source: string
  isOn: boolean
  /** Its place among the reasons of its tier, from 1. */
  place: number
}

export type TierRows = { tier: Tier; title: string; rows: ReasonRow[] }

const titles: Readonly<Record<Tier, string>> = {
  urgent: "Urgent",
  soon: "Soon",
  routine: "Routine",
  ahead: "Ahead",
}

/** The reasons by tier, each tier in the clinic's order. */
export function reasonRows(settings: Settings): TierRows[] {
  const off = reasonList(settings["outreach.reasonsOff"])
  const set = reasonList(settings["outreach.reasonOrder"])
  const order = set.length > 0 ? set : reasonIds
  return tiers.map((tier) => ({
    tier,
    title: titles[tier],
    rows: reasons
      .filter((reason) => reason.tier === tier)
      .toSorted((one, other) => order.indexOf(one.id) - order.indexOf(other.id))
      .map(({ id, name, actor, endsWith, source }, at) => ({
        ...{ id, actor: sentenceCase(actor), endsWith, source, place: at + 1, isOn: !off.includes(id) },
        name: withSettings(name, settings),
      })),
  }))
}

/** The reasons switched off and their order, as the settings hold them; the order of the program is no order of the clinic's. */
export function reasonTexts(given: { isOn: (id: ReasonId) => boolean; placeOf: (id: ReasonId) => number }) {
  const off = reasons.filter(({ id, tier }) => tier !== "urgent" && !given.isOn(id))
  const order = tiers.flatMap((tier) =>
    reasons
      .filter((reason) => reason.tier === tier)
      .toSorted((one, other) => given.placeOf(one.id) - given.placeOf(other.id))
      .map(({ id }) => id),
  )
  const isOwn = order.some((id, at) => id !== reasonIds[at])
  return {
    "outreach.reasonsOff": off.map(({ id }) => id).join(" "),
    "outreach.reasonOrder": isOwn ? order.join(" ") : "",
  }
}
