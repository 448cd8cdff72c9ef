import { z } from "zod"
import { seriesPlace, sodiumSteps } from "./sodium-behind"

export const SodiumLimits = z.object({
  series: z.string(),
  n: z.number().int(),
  mean_mg: z.number(),
  sd_mg: z.number().nullable(),
  within_1500: z.number().int(),
  within_2000: z.number().int(),
  within_2300: z.number().int(),
  /** How many have a record behind their value that is told as above or below a number. */
  comparators: z.number().int(),
})

export type SodiumLimits = z.infer<typeof SodiumLimits>

/** How many people's sodium at a day is at or under each limit, by series: everyone whom the measure of the limit counts with a value. */
export const sodiumLimits = {
  sql: `with ${sodiumSteps}
select
  a.sodium_in_year_series as series,
  cast(count(*) as integer) as n,
  round(avg(a.sodium_in_year_mg), 6) as mean_mg,
  round(stddev_samp(a.sodium_in_year_mg), 6) as sd_mg,
  cast(count(*) filter (where a.sodium_in_year_mg <= 1500) as integer) as within_1500,
  cast(count(*) filter (where a.sodium_in_year_mg <= 2000) as integer) as within_2000,
  cast(count(*) filter (where a.sodium_in_year_mg <= 2300) as integer) as within_2300,
  cast(count(*) filter (where behind.has_comparator) as integer) as comparators
from assessed as a
left join behind on behind.patient_id = a.patient_id
group by a.sodium_in_year_series
order by ${seriesPlace("a.sodium_in_year_series")}`,
  Row: SodiumLimits,
} as const
