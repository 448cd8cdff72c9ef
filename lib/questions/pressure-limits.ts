import { z } from "zod"

export const PressureLimit = z.object({
  bp_source: z.enum(["office", "home", "ambulatory"]),
  systolic_limit: z.number(),
  diastolic_limit: z.number(),
  limit_basis: z.enum(["clinic", "published", "office"]),
})

export type PressureLimit = z.infer<typeof PressureLimit>

/** The target of each kind of reading and where it comes from: the clinic's own, a published equivalent, or the office numbers. */
export const pressureLimits = {
  sql: `select
  bp_source,
  cast(systolic_limit as double) as systolic_limit,
  cast(diastolic_limit as double) as diastolic_limit,
  limit_basis
from pressure_limits
order by case bp_source when 'office' then 1 when 'home' then 2 else 3 end`,
  Row: PressureLimit,
}
