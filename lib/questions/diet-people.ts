import { z } from "zod"

export const DietPerson = z.object({
  total: z.number().int(),
  people: z.number().int(),
  patient_id: z.string(),
  public_id: z.string(),
  given_name: z.string().nullable(),
  family_name: z.string().nullable(),
  age_years: z.number().int(),
  site: z.string().nullable(),
  clinician_name: z.string().nullable(),
  day: z.string(),
  method: z.string(),
  sodium_mg: z.number(),
  comparator: z.string().nullable(),
})

export type DietPerson = z.infer<typeof DietPerson>

/** The records of one series behind a month's mean, by name and day: those of the panel, dated in the month and not after the day. */
export const dietPeople = {
  sql: `
with records as (
  select p.patient_id, p.public_id, p.given_name, p.family_name, p.age_years, p.site, p.clinician_name,
    r.day, r.method, r.sodium_mg, r.comparator
  from sodium_records as r
  join patient_month as p on p.patient_id = r.patient_id
  where p.as_of = cast($as_of as date)
    and p.in_panel
    and r.series = cast($series as varchar)
    and r.day >= cast(date_trunc('month', p.as_of) as date)
    and r.day <= p.as_of
)
select
  cast(count(*) over () as integer) as total,
  cast((select count(distinct patient_id) from records) as integer) as people,
  records.patient_id, records.public_id, records.given_name, records.family_name, records.age_years,
  records.site, records.clinician_name, records.day, records.method,
  cast(records.sodium_mg as double) as sodium_mg,
  records.comparator
from records
order by lower(family_name), lower(given_name), patient_id, day
limit cast($limit as integer) offset cast($offset as integer)`,
  Row: DietPerson,
} as const
