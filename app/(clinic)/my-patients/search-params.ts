import { z } from "zod"
import { ownChangeGroups } from "../../../lib/questions/own-changes"
import { TypedText } from "../../../lib/domain/typed-text"
import { hrefOf, single, type RawSearch } from "../../_ui/href"
import { MonthParam, PageParam } from "../search-params"

const MyPatientsView = z.object({
  month: MonthParam,
  /** Whose patients, by the staff list; null is the person's own. */
  clinician: TypedText.max(200).nullable().catch(null).default(null),
  /** What somebody has to have changed in; null is anything. */
  change: z.enum(ownChangeGroups).nullable().catch(null).default(null),
  page: PageParam,
})

/** A clinician's own patients as an address tells it; null is the default and is left out. */
export type MyPatientsView = z.infer<typeof MyPatientsView>

export function parseMyPatientsView(raw: RawSearch): MyPatientsView {
  return MyPatientsView.parse(single(raw))
}

export function myPatientsHref(view: Partial<MyPatientsView>): string {
  const { month = null, clinician = null, change = null, page = null } = view
  return hrefOf("/my-patients", { month, clinician, change, page })
}
