import { z } from "zod"
import type { Measure } from "../measures/types"

export const groupKinds = ["clinician", "site", "sex", "age"] as const

export type GroupKind = (typeof groupKinds)[number]

export const GroupCounts = z.object({
  kind: z.enum(groupKinds),
  key: z.string().nullable(),
  name: z.string().nullable(),
  excluded: z.number().int(),
  unknown: z.number().int(),
  met: z.number().int(),
  exception: z.number().int(),
  not_met: z.number().int(),
})

export type GroupCounts = z.infer<typeof GroupCounts>

/** The standings of one measure on a day by clinician, site, sex and age band; key null is not assigned. Ordered by name. */
export function measureGroups(measure: Measure) {
  const count = (standing: string) => `cast(count(*) filter (where standing = '${standing}') as integer)`
  const counts = `
  ${count("excluded")} as excluded,
  ${count("unknown")} as unknown,
  ${count("met")} as met,
  ${count("exception")} as exception,
  ${count("not met")} as not_met`
  return {
    sql: `
with people as (
  select p.clinician_id, p.clinician_name, p.site, p.sex, p.age_band, s.${measure.column} as standing
  from patient_standings as s
  join patient_month as p on p.patient_id = s.patient_id and p.as_of = s.as_of
  where s.as_of = cast($as_of as date) and p.as_of = cast($as_of as date) and s.${measure.column} <> 'outside'
)
select 'clinician' as kind, clinician_id as key, max(clinician_name) as name,${counts}
from people
group by clinician_id
union all
select 'site', site, site,${counts}
from people
group by site
union all
select 'sex', sex, sex,${counts}
from people
group by sex
union all
select 'age', age_band, age_band,${counts}
from people
group by age_band
order by kind, name nulls last, key`,
    Row: GroupCounts,
  } as const
}
