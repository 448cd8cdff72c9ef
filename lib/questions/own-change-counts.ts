import { z } from "zod"
import { ownChangeSteps } from "./own-change-steps"
import { ownChangeGroups } from "./own-changes"

export const OwnChangeCounts = z.object({
  people: z.number().int(),
  by_group: z.array(z.number().int()).length(ownChangeGroups.length),
})

export type OwnChangeCounts = z.infer<typeof OwnChangeCounts>

/** How many of a clinician's people something changed for between two days, and for how many of them in each group, in their order. */
export const ownChangeCounts = {
  sql: `with${ownChangeSteps}
select
  cast(count(distinct c.patient_id) as integer) as people,
  [
    ${ownChangeGroups.map((group) => `cast(count(distinct case when c.change_group = '${group}' then c.patient_id end) as integer)`).join(",\n    ")}
  ] as by_group
from changes as c`,
  Row: OwnChangeCounts,
} as const
