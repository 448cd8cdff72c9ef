import { z } from "zod"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { MonthParam, PageParam } from "../search-params"
import { sodiumLists } from "./sodium-lists"

const SodiumView = z.object({
  month: MonthParam,
  /** Which people are listed; null is the first list. */
  list: z
    .enum(sodiumLists.flatMap(({ param }) => param ?? []))
    .nullable()
    .catch(null)
    .default(null),
  page: PageParam,
})

/** The sodium screen as an address tells it; null is the default and is left out. */
export type SodiumView = z.infer<typeof SodiumView>

export function parseSodiumView(raw: RawSearch): SodiumView {
  return SodiumView.parse(single(raw))
}

export function sodiumHref(view: Partial<SodiumView>, anchor?: "people"): string {
  const { month = null, list = null, page = null } = view
  return `${hrefOf("/sodium", { month, list, page })}${anchor ? `#${anchor}` : ""}`
}
