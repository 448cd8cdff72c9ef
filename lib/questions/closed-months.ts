import { z } from "zod"

/** The last days of the months that are over, the running one among them once it is complete. */
export const closedMonths = {
  sql: `select strftime(d.as_of, '%Y-%m-%d') as as_of
from as_of_dates as d
where d.as_of = last_day(d.as_of)
order by d.as_of`,
  Row: z.object({ as_of: z.string() }),
} as const
