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
