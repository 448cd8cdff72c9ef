import { z } from "zod"
import { protectionGroupIds } from "../../../lib/questions/protection-groups"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { MonthParam, PageParam } from "../search-params"

const ProtectionView = z.object({
  month: MonthParam,
  group: z.enum(protectionGroupIds).nullable().catch(null).default(null),
  /** Whose patients: null is the reader's own for somebody who has a panel, else everybody's. */
  whose: z.enum(["everybody"]).nullable().catch(null).default(null),
  page: PageParam,
})

/** The list of those without an ACE inhibitor or ARB as an address tells it; null is the default and is left out. */
export type ProtectionView = z.infer<typeof ProtectionView>

export function parseProtectionView(raw: RawSearch): ProtectionView {
  return ProtectionView.parse(single(raw))
}

export function protectionHref(view: Partial<ProtectionView>): string {
  const { month = null, group = null, whose = null, page = null } = view
  return hrefOf("/protection", { month, group, whose, page })
}
