import { z } from "zod"

export const MeasureMonth = z.object({
  measure_id: z.string(),
  as_of: z.string(),
  population: z.number().int(),
  excluded: z.number().int(),
  unknown: z.number().int(),
  met: z.number().int(),
  exception: z.number().int(),
  not_met: z.number().int(),
})

export type MeasureMonth = z.infer<typeof MeasureMonth>

/** The counts of every measure on every as-of date, earliest first; a date without anyone in the panel has no row. */
export const measureMonths = {
  sql: `
select m.measure_id, m.as_of, m.population, m.excluded, m.unknown, m.met, m.exception, m.not_met
from measure_months as m
order by m.measure_id, m.as_of`,
  Row: MeasureMonth,
} as const

/** The same by today's facts and settings throughout: a month that was closed does not stand as it was known then. */
export const measureMonthsOfToday = {
  sql: `
select m.measure_id, m.as_of, m.population, m.excluded, m.unknown, m.met, m.exception, m.not_met
from measure_months as m
where m.as_of not in (select c.as_of from closed_months as c)
union all
select t.measure_id, t.as_of, t.population, t.excluded, t.unknown, t.met, t.exception, t.not_met
from measure_months_today as t
order by measure_id, as_of`,
  Row: MeasureMonth,
} as const
