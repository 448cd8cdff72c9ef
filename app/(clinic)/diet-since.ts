import { dietChangeWords, type DietChangeWords } from "../../lib/figures/diet-change-words"
import { dietSodium } from "../../lib/measures/diet-sodium"
import { dietChange } from "../../lib/questions/diet-change"
import { ask } from "../_http/ask"
import type { ChosenMonth } from "./months"

/** How the headline series changed since the earlier day; null without one, or where neither month has a record. */
export async function askDietSince(chosen: ChosenMonth): Promise<DietChangeWords | null> {
  const { asOf, earlierAsOf } = chosen
  if (earlierAsOf === null) return null
  const [sums] = await ask(dietChange, {
    as_of: asOf,
    earlier_as_of: earlierAsOf,
    series: dietSodium.headlineSeries,
  })
  if (!sums || sums.earlier_n + sums.later_n === 0) return null
  return dietChangeWords({ sums, earlierAsOf, asOf })
}
