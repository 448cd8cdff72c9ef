import { z } from "zod"
import { measures } from "../measures/index"

export const StandingsMoved = z.object({ measure_id: z.string(), people: z.number().int() })

export type StandingsMoved = z.infer<typeof StandingsMoved>

/** How many people would stand elsewhere under the settings that are tried, by measure; asked within `whatIf`. */
export const standingsMoved = {
  sql: `
with listed(measure_id, place) as (
  values ${measures.map(({ id }, place) => `('${id}', ${place})`).join(", ")}
)
select listed.measure_id, cast(count(m.patient_id) as integer) as people
from listed
left join tried_moves as m on m.measure_id = listed.measure_id
group by listed.measure_id, listed.place
order by listed.place`,
  Row: StandingsMoved,
} as const
