import { z } from "zod"
import { severalClassesFindings } from "../../../lib/questions/several-classes-findings"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { MonthParam, PageParam } from "../search-params"

const SeveralClassesView = z.object({
  month: MonthParam,
  /** What somebody has to be found with; null is everyone. */
  finding: z
    .enum(severalClassesFindings.map(({ id }) => id))
    .nullable()
    .catch(null)
    .default(null),
  page: PageParam,
})

/** The list of those on several classes as an address tells it; null is the default and is left out. */
export type SeveralClassesView = z.infer<typeof SeveralClassesView>

export function parseSeveralClassesView(raw: RawSearch): SeveralClassesView {
  return SeveralClassesView.parse(single(raw))
}

export function severalClassesHref(view: Partial<SeveralClassesView>): string {
  const { month = null, finding = null, page = null } = view
  return hrefOf("/several-classes", { month, finding, page })
}
