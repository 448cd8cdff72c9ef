import { z } from "zod"

export const MeasureInMonth = z.object({
  measure_id: z.string(),
  as_of: z.string(),
  met: z.number().int(),
  not_met: z.number().int(),
  unknown: z.number().int(),
})

export type MeasureInMonth = z.infer<typeof MeasureInMonth>

/** Of every measure with a deciding fact, the standings of those whose fact is dated in the month, earliest month first. */
export const measureInMonth = {
  sql: `
select m.measure_id, m.as_of, m.met, m.not_met, m.unknown
from measure_in_month as m
order by m.measure_id, m.as_of`,
  Row: MeasureInMonth,
} as const
