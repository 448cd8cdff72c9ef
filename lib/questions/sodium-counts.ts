import { z } from "zod"
import { sodiumSteps } from "./sodium-behind"
import { isAbove, isUncontrolled } from "./sodium-people"
import { urineSteps } from "./sodium-urines"

export const SodiumCounts = z.object({
  counted: z.number().int(),
  assessed: z.number().int(),
  not_assessed: z.number().int(),
  above: z.number().int(),
  above_uncontrolled: z.number().int(),
  fell: z.number().int(),
  rose: z.number().int(),
  doubtful_urine: z.number().int(),
})

export type SodiumCounts = z.infer<typeof SodiumCounts>

/** How many people are on each list of the sodium screen on a day, beside how many are counted at all. */
export const sodiumCounts = {
  sql: `with ${sodiumSteps}, ${urineSteps}
select
  cast(count(*) as integer) as counted,
  cast(count(*) filter (where p.standing <> 'unknown') as integer) as assessed,
  cast(count(*) filter (where p.standing = 'unknown') as integer) as not_assessed,
  cast(count(*) filter (where ${isAbove}) as integer) as above,
  cast(count(*) filter (where ${isAbove} and ${isUncontrolled}) as integer) as above_uncontrolled,
  (
    select cast(count(distinct d.patient_id) as integer) from patient_diet_months as d
    where d.as_of = cast($as_of as date) and d.change_mg < 0
  ) as fell,
  (
    select cast(count(distinct d.patient_id) as integer) from patient_diet_months as d
    where d.as_of = cast($as_of as date) and d.change_mg > 0
  ) as rose,
  (select cast(count(distinct d.patient_id) as integer) from doubtful as d) as doubtful_urine
from counted as p`,
  Row: SodiumCounts,
} as const
