import { resistanceDetails } from "./resistance-details"

type DetailId = (typeof resistanceDetails)[number]["id"]

/** One thing to look at in somebody who is above target on several classes: a condition over `patient_month`, by name. */
export type Finding = {
  readonly id: string
  readonly words: string
  readonly sql: string
}

/** What may explain the pressure more simply than resistance, in the order in which it is looked at. */
const simpler: readonly Finding[] = [
  part("supply-gaps"),
  {
    id: "supply-unknown",
    words: "without any supply on record, so that gaps are not known",
    sql: "p.supply_gap_days is null",
  },
  part("office-only"),
  part("interfering-drug"),
  part("no-diuretic"),
  part("no-ras-blocker"),
  part("no-calcium-channel-blocker"),
  part("dose-below-half"),
  part("dose-unknown"),
]

/** The findings of the screen of those on several classes, in their order; the last two explain nothing. */
export const severalClassesFindings: readonly Finding[] = [
  ...simpler,
  {
    id: "nothing-simpler",
    words: "with none of these",
    sql: `not (${simpler.map(({ sql }) => `coalesce(${sql}, false)`).join(" or ")})`,
  },
  part("five-classes"),
]

function part(id: DetailId): Finding {
  const detail = resistanceDetails.find((one) => one.id === id)
  if (!detail) throw new RangeError(`part knows no detail ${id}`)
  return { id, words: detail.words, sql: detail.sql }
}
