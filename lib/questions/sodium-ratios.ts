import { z } from "zod"
import { seriesPlace, sodiumSteps } from "./sodium-behind"

export const SodiumRatios = z.object({
  series: z.string(),
  n: z.number().int(),
  mean_ratio: z.number(),
  sd_ratio: z.number().nullable(),
  below_1: z.number().int(),
})

export type SodiumRatios = z.infer<typeof SodiumRatios>

/**
 * The molar sodium:potassium ratio of people's diet at a day, by series: of each the means over the records behind their sodium that
 * have both. No row of a series in which nobody has both.
 */
export const sodiumRatios = {
  sql: `with ${sodiumSteps}
select
  a.sodium_in_year_series as series,
  cast(count(*) as integer) as n,
  round(avg(behind.ratio), 9) as mean_ratio,
  round(stddev_samp(behind.ratio), 9) as sd_ratio,
  cast(count(*) filter (where behind.ratio < 1) as integer) as below_1
from assessed as a
join behind on behind.patient_id = a.patient_id and behind.ratio is not null
group by a.sodium_in_year_series
order by ${seriesPlace("a.sodium_in_year_series")}`,
  Row: SodiumRatios,
} as const
