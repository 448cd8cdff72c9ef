import { z } from "zod"

export const DietMean = z.object({
  n: z.number(),
  mean_mg: z.number().nullable(),
  sd_mg: z.number().nullable(),
  paired_n: z.number(),
  paired_change_mg: z.number().nullable(),
  paired_sd_mg: z.number().nullable(),
})

/** The mean daily sodium of one series in the month of one day, and the paired change; no row when nobody brought a record. */
export const dietMean = {
  sql: `select n, mean_mg, sd_mg, paired_n, paired_change_mg, paired_sd_mg
from diet_months
where as_of = cast($as_of as date) and series = cast($series as varchar)
order by as_of`,
  Row: DietMean,
}
