import { z } from "zod"

export const MeasureCounts = z.object({
  measure_id: z.string(),
  population: z.number(),
  excluded: z.number(),
  unknown: z.number(),
  met: z.number(),
  not_met: z.number(),
  exception: z.number(),
})

export type MeasureCounts = z.infer<typeof MeasureCounts>

/** How many patients stand where on each measure on one day; no row for a measure when the panel is empty. */
export const measureCounts = {
  sql: `select measure_id, population, excluded, unknown, met, not_met, exception
from measure_months
where as_of = cast($as_of as date)
order by measure_id`,
  Row: MeasureCounts,
}
