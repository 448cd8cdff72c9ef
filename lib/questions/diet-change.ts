import { z } from "zod"

export const DietChangeSums = z.object({
  earlier_n: z.number().int(),
  earlier_mg: z.number(),
  later_n: z.number().int(),
  later_mg: z.number(),
  both_n: z.number().int(),
  both_earlier_mg: z.number(),
  both_later_mg: z.number(),
})

export type DietChangeSums = z.infer<typeof DietChangeSums>

/** Who brought records of one series in the month of either day, and the sums of their means: all, and those who did in both. */
export const dietChange = {
  sql: `
with earlier as (
  select d.patient_id, d.mean_mg
  from patient_diet_months as d
  where d.as_of = cast($earlier_as_of as date) and d.series = cast($series as varchar)
),
later as (
  select d.patient_id, d.mean_mg
  from patient_diet_months as d
  where d.as_of = cast($as_of as date) and d.series = cast($series as varchar)
),
people as (
  select
    earlier.mean_mg as earlier_mg,
    later.mean_mg as later_mg,
    earlier.patient_id is not null and later.patient_id is not null as is_both
  from earlier
  full outer join later on later.patient_id = earlier.patient_id
)
select
  cast(count(p.earlier_mg) as integer) as earlier_n,
  cast(coalesce(sum(p.earlier_mg), 0) as double) as earlier_mg,
  cast(count(p.later_mg) as integer) as later_n,
  cast(coalesce(sum(p.later_mg), 0) as double) as later_mg,
  cast(count(*) filter (where p.is_both) as integer) as both_n,
  cast(coalesce(sum(p.earlier_mg) filter (where p.is_both), 0) as double) as both_earlier_mg,
  cast(coalesce(sum(p.later_mg) filter (where p.is_both), 0) as double) as both_later_mg
from people as p`,
  Row: DietChangeSums,
} as const
