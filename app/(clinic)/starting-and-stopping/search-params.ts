import { z } from "zod"
import {
  startingFindings,
  startingGroups,
  type StartingGroupId,
} from "../../../lib/questions/starting-and-stopping-groups"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { MonthParam, PageParam } from "../search-params"

const first: StartingGroupId = "above-target"

const StartingView = z
  .object({
    month: MonthParam,
    group: z
      .enum(startingGroups.map(({ id }) => id))
      .catch(first)
      .default(first),
    /** What somebody on the list has to be found with; null is everyone. */
    finding: z.string().nullable().catch(null).default(null),
    page: PageParam,
  })
  .transform((view) => ({ ...view, finding: isOf(view.group, view.finding) ? view.finding : null }))

/** A list of starting and stopping as an address tells it; the first list and null are the defaults and are left out. */
export type StartingView = z.infer<typeof StartingView>

export function parseStartingView(raw: RawSearch): StartingView {
  return StartingView.parse(single(raw))
}

export function startingHref(view: Partial<StartingView>): string {
  const { month = null, group = first, finding = null, page = null } = view
  return hrefOf("/starting-and-stopping", { month, group: group === first ? null : group, finding, page })
}

function isOf(group: StartingGroupId, finding: string | null): boolean {
  return startingFindings.some((one) => one.group === group && one.id === finding)
}
