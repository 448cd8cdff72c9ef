import { z } from "zod"

export const RasStartDays = z.object({ people: z.number().int(), median_days: z.number().nullable() })

export type RasStartDays = z.infer<typeof RasStartDays>

/** After how many days potassium and creatinine were both there, for the middle one of those checked after a start. */
export const rasStartDays = {
  sql: `select
  cast(count(*) as integer) as people,
  cast(median(p.ras_start_checked_days) as double) as median_days
from patient_month as p
join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
where p.as_of = cast($as_of as date) and s.ras_start_checked = 'met'`,
  Row: RasStartDays,
} as const
