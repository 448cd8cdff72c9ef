import { z } from "zod"
import { isPressureLeftAlone } from "./patient-sodium"
import { seriesPlace, sodiumSteps } from "./sodium-behind"

const number = z.number().nullable()

export const SodiumEffect = z.object({
  /** Null of the row that is for 1,000 mg and of nobody. */
  series: z.string().nullable(),
  /** How many have a sodium above the limit. */
  n: z.number().int(),
  /** How far they lie above it, on average, in mg a day. */
  above_mg: number,
  /** The mean fall in systolic pressure that trials found for so much less, lower and upper end, in mmHg. */
  fall_least: number,
  fall_most: number,
})

export type SodiumEffect = z.infer<typeof SodiumEffect>

/**
 * What trials found on average for 1,000 mg of sodium less a day, and for the way to the limit of those above it at a day, by series.
 * Whoever has a low pressure, is pregnant or in palliative care is left out.
 */
export const sodiumEffects = {
  sql: `with ${sodiumSteps},
falls as (
  select cast(null as varchar) as series, 0 as n, cast(1000 as double) as above_mg
  union all
  select p.sodium_in_year_series, count(*), round(avg(p.sodium_in_year_mg - cast($sodium_limit_mg as double)), 6)
  from assessed as p
  where p.sodium_in_year_mg > cast($sodium_limit_mg as double) and not (${isPressureLeftAlone})
  group by p.sodium_in_year_series
)
select
  f.series, cast(f.n as integer) as n, f.above_mg,
  systolic_fall_least(f.above_mg) as fall_least, systolic_fall_most(f.above_mg) as fall_most
from falls as f
order by
  f.series is not null,
  ${seriesPlace("f.series")}`,
  Row: SodiumEffect,
} as const
