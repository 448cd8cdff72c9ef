import { z } from "zod"
import { sodiumSteps } from "./sodium-behind"

export const SodiumUrines = z.object({
  completeness: z.enum(["complete", "doubtful", "cannot be judged"]),
  /** What is missing where it cannot be judged: no creatinine, no sex, or a creatinine that is only a bound. */
  missing: z.enum(["creatinine", "sex", "number"]).nullable(),
  collections: z.number().int(),
  people: z.number().int(),
})

export type SodiumUrines = z.infer<typeof SodiumUrines>

/**
 * Steps that go after those of the sodium: the 24-hour urines of the 12 months to `$as_of`, of everyone whom the measure of the limit
 * counts, and of each person the latest that is doubtful.
 */
export const urineSteps = `
urines as (
  select u.*
  from counted as p
  join as_of_windows as w on w.as_of = p.as_of
  join urine_collections as u on u.patient_id = p.patient_id and u.day > w.year_after and u.day <= p.as_of
),
doubtful as (
  select u.*, row_number() over (partition by u.patient_id order by u.day desc, u.import_id desc, u.line desc) as place
  from urines as u
  where u.completeness = 'doubtful'
)`

/** How many 24-hour urines of the 12 months to a day are complete by their creatinine, doubtful, or not to be judged, and why. */
export const sodiumUrines = {
  sql: `with ${sodiumSteps}, ${urineSteps}
select
  u.completeness,
  u.missing,
  cast(count(*) as integer) as collections,
  cast(count(distinct u.patient_id) as integer) as people
from urines as u
group by u.completeness, u.missing
order by u.completeness, u.missing`,
  Row: SodiumUrines,
} as const
