import { z } from "zod"
import { isPlainDate } from "../../../../lib/domain/plain-date"
import { hrefOf, single, type RawSearch } from "../../../_ui/href"

/** The word of an address for visits that are booked with nobody by name. */
export const notNamed = "not-named"

const VisitsView = z.object({
  /** Null is the first day from today on that has visits. */
  on: z
    .string()
    .regex(/^(19|20)/)
    .refine(isPlainDate)
    .nullable()
    .catch(null)
    .default(null),
  /** The id of one on the staff list, or that nobody is named. */
  clinician: z.string().min(1).max(200).nullable().catch(null).default(null),
})

/** The view of the visit lists: which day, and whose. */
export type VisitsView = z.infer<typeof VisitsView>

export function parseVisitsView(raw: RawSearch): VisitsView {
  return VisitsView.parse(single(raw))
}

export function visitsHref(view: Partial<VisitsView>): string {
  return hrefOf("/outreach/visits", { on: view.on ?? null, clinician: view.clinician ?? null })
}
