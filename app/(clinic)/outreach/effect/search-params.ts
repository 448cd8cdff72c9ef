import { monthsAfter } from "../../../../lib/domain/day-sums"
import { isPlainDate, type PlainDate } from "../../../../lib/domain/plain-date"
import { single, type RawSearch } from "../../../_ui/href"

export type EffectView = { from: PlainDate; to: PlainDate }

/** The period in which a reason began; without one, or with one that ends before it begins, the last six months. */
export function parseEffectView(raw: RawSearch, today: PlainDate): EffectView {
  const { from = "", to = "" } = single(raw)
  const last = isPlainDate(to) ? to : today
  const first = isPlainDate(from) ? from : monthsAfter(last, -6)
  return first <= last ? { from: first, to: last } : { from: monthsAfter(today, -6), to: today }
}
