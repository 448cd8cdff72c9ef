import { z } from "zod"
import { sodiumSteps } from "./sodium-behind"

export const SodiumBar = z.object({
  series: z.string(),
  /** The bar holds what is above `above_mg` and at most `barMg` more; the last one all that is above. */
  above_mg: z.number().int(),
  n: z.number().int(),
})

export type SodiumBar = z.infer<typeof SodiumBar>

/** mg a day of one bar, and where the last one begins. */
export const barMg = 250
export const lastBarMg = 5000

/** How many people's sodium at a day lies in each bar of 250 mg, by series; a bar nobody is in has no row. */
export const sodiumBars = {
  sql: `with ${sodiumSteps}
select
  a.sodium_in_year_series as series,
  cast(least(${lastBarMg}, ${barMg} * greatest(0, ceil(a.sodium_in_year_mg / ${barMg}) - 1)) as integer) as above_mg,
  cast(count(*) as integer) as n
from assessed as a
group by series, above_mg
order by series, above_mg`,
  Row: SodiumBar,
} as const
