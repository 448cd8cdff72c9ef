import { z } from "zod"
import type { Measure } from "../measures/types"

export const groupKinds = ["clinician", "site", "sex", "age", "language", "race", "ethnicity"] as const

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

/** Each kind with the column of `people` below that divides by it. */
const columns: Record<GroupKind, { key: string; name: string }> = {
  clinician: { key: "clinician_id", name: "max(clinician_name)" },
  site: { key: "site", name: "site" },
  sex: { key: "sex", name: "sex" },
  age: { key: "age_band", name: "age_band" },
  language: { key: "language", name: "language" },
  race: { key: "race", name: "race" },
  ethnicity: { key: "ethnicity", name: "ethnicity" },
}

/**
 * The standings of one measure on a day by clinician, site, sex, age band, language, race and ethnicity; key null is not
 * assigned or not asked, and each person is in one group of a kind. By name, whoever declined and then null at the end.
 */
export function measureGroups(measure: Measure) {
  const count = (standing: string) => `cast(count(*) filter (where standing = '${standing}') as integer)`
  const counts = `
  ${count("excluded")} as excluded,
  ${count("unknown")} as unknown,
  ${count("met")} as met,
  ${count("exception")} as exception,
  ${count("not met")} as not_met`
  const division = (kind: GroupKind) => `
select '${kind}' as kind, ${columns[kind].key} as key, ${columns[kind].name} as name,${counts}
from people
group by ${columns[kind].key}`
  return {
    sql: `
with people as (
  select p.clinician_id, p.clinician_name, p.site, p.sex, p.age_band, g.language, g.race, g.ethnicity,
    s.${measure.column} as standing
  from patient_standings as s
  join patient_month as p on p.patient_id = s.patient_id and p.as_of = s.as_of
  join person_groups as g on g.patient_id = s.patient_id
  where s.as_of = cast($as_of as date) and p.as_of = cast($as_of as date) and s.${measure.column} <> 'outside'
),
divided as (${groupKinds.map(division).join("\nunion all")}
)
select kind, key, name, excluded, unknown, met, exception, not_met
from divided
order by kind, case when key is null then 2 when key = 'declined' then 1 else 0 end, name nulls last, key`,
    Row: GroupCounts,
  } as const
}
