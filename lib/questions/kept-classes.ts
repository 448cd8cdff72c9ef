import { z } from "zod"
import { listedIds } from "./listed-ids"
import { keptClassesSteps } from "./starting-and-stopping-rows"

export const KeptClass = z.object({
  public_id: z.string(),
  class: z.string(),
  reason: z.enum(["heart_failure", "atrial_fibrillation", "albuminuria"]),
})

export type KeptClass = z.infer<typeof KeptClass>

/**
 * Which classes some people take on a day have a reason beside the pressure, by the list of such reasons.
 * Shape: parameters `$as_of` and `$listed_ids`, public ids with a comma between.
 */
export const keptClasses = {
  sql: `with ${listedIds},
${keptClassesSteps}
select people.public_id, kept_classes.class, kept_classes.reason
from kept_classes
join people on people.patient_id = kept_classes.patient_id
join listed on listed.public_id = people.public_id
order by people.public_id, kept_classes.class, kept_classes.reason`,
  Row: KeptClass,
} as const
