import { z } from "zod"

export const MonthToday = z.object({
  measure_id: z.string(),
  population: z.number().int(),
  excluded: z.number().int(),
  unknown: z.number().int(),
  met: z.number().int(),
  exception: z.number().int(),
  not_met: z.number().int(),
})

export type MonthToday = z.infer<typeof MonthToday>

/** What today's facts and settings make of a month that was closed: the counts of every measure; no row of another month. */
export const monthsToday = {
  sql: `
select m.measure_id, m.population, m.excluded, m.unknown, m.met, m.exception, m.not_met
from measure_months_today as m
where m.as_of = cast($as_of as date)
order by m.measure_id`,
  Row: MonthToday,
} as const
