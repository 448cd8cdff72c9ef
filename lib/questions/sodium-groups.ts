import { z } from "zod"
import { seriesPlace, sodiumSteps } from "./sodium-behind"

export const sodiumGroupKinds = ["site", "dietitian", "method"] as const

export const SodiumGroup = z.object({
  kind: z.enum(sodiumGroupKinds),
  /** Null is no site, or no visit to a dietitian in the 12 months. */
  name: z.string().nullable(),
  series: z.string(),
  n: z.number().int(),
  mean_mg: z.number().nullable(),
  sd_mg: z.number().nullable(),
  within: z.number().int(),
  paired_n: z.number().int(),
  paired_change_mg: z.number().nullable(),
  paired_sd_mg: z.number().nullable(),
})

export type SodiumGroup = z.infer<typeof SodiumGroup>

/**
 * Sodium at a day and the paired change of its month, by site, by the dietitian of the latest visit in 12 months, and by method; each
 * series apart. The change is of everyone in the panel with a pair, and is not divided by method.
 */
export const sodiumGroups = {
  sql: `with ${sodiumSteps},
dietitians as (
  select p.patient_id, min(coalesce(v.dietitian_name, 'name not on record')) as name
  from patient_month as p
  join dietitian_visits as v on v.patient_id = p.patient_id and v.started_on = p.dietitian_seen_on
  where p.as_of = cast($as_of as date) and p.is_seen_by_dietitian_in_year
  group by p.patient_id
),
values_at as (
  select a.patient_id, a.site, dietitians.name as dietitian, behind.methods as method, a.sodium_in_year_series as series,
    a.sodium_in_year_mg as mg
  from assessed as a
  left join behind on behind.patient_id = a.patient_id
  left join dietitians on dietitians.patient_id = a.patient_id
),
changes as (
  select d.patient_id, p.site, dietitians.name as dietitian, d.series, cast(d.change_mg as double) as change_mg
  from patient_diet_months as d
  join patient_month as p on p.patient_id = d.patient_id and p.as_of = d.as_of
  left join dietitians on dietitians.patient_id = d.patient_id
  where d.as_of = cast($as_of as date) and d.change_mg is not null
),
divided as (
  select 'site' as kind, site as name, series, mg, cast(null as double) as change_mg from values_at
  union all
  select 'dietitian', dietitian, series, mg, null from values_at
  union all
  select 'method', method, series, mg, null from values_at
  union all
  select 'site', site, series, null, change_mg from changes
  union all
  select 'dietitian', dietitian, series, null, change_mg from changes
)
select
  kind, name, series,
  cast(count(mg) as integer) as n,
  round(avg(mg), 6) as mean_mg,
  round(stddev_samp(mg), 6) as sd_mg,
  cast(count(*) filter (where mg <= cast($sodium_limit_mg as double)) as integer) as within,
  cast(count(change_mg) as integer) as paired_n,
  round(avg(change_mg), 6) as paired_change_mg,
  round(stddev_samp(change_mg), 6) as paired_sd_mg
from divided
group by kind, name, series
order by
  kind, name nulls last,
  ${seriesPlace("series")}`,
  Row: SodiumGroup,
} as const
