import { z } from "zod"

export const PressureMark = z.object({
  kind: z.enum(["office", "home", "ambulatory", "uncounted"]),
  setting: z.string(),
  day: z.string(),
  systolic: z.number(),
  diastolic: z.number(),
  readings: z.number().int(),
  days: z.number().int(),
  /** False for a home average of too few readings or days, which represents nobody. */
  is_valid: z.boolean(),
  sources: z.array(z.string()),
})

export type PressureMark = z.infer<typeof PressureMark>

/**
 * The pressures of a person over the 36 months to a day, as they are drawn: office occasions, 24-hour occasions, the home
 * average that ends last in each month, and the readings of settings that do not count.
 */
export const patientPressures = {
  sql: `with person as materialized (
  select people.patient_id, w.as_of, w.confirmation_after
  from people
  join as_of_windows as w on w.as_of = cast($as_of as date)
  where people.public_id = cast($public_id as varchar)
),
readings as materialized (
  select r.setting, r.is_counted, r.day, r.taken_at, r.systolic, r.diastolic,
    'readings:' || r.import_id || ':' || r.line as source
  from bp_readings as r
  join person on person.patient_id = r.patient_id and r.day > person.confirmation_after and r.day <= person.as_of
),
home_months as (
  select
    h.day, h.systolic, h.diastolic, h.readings, h.days, h.is_valid,
    row_number() over (partition by date_trunc('month', h.day) order by h.day desc) as place
  from home_averages as h
  join person on person.patient_id = h.patient_id and h.day > person.confirmation_after and h.day <= person.as_of
),
occasions as (
  select 'office' as kind, o.day, o.day - 1 as opens_after, o.systolic, o.diastolic, o.readings, 1 as days,
    true as is_valid
  from office_occasions as o
  join person on person.patient_id = o.patient_id and o.day > person.confirmation_after and o.day <= person.as_of
  union all
  select 'ambulatory', o.day, o.day - 1, o.systolic, o.diastolic, o.readings, 1, true
  from ambulatory_occasions as o
  join person on person.patient_id = o.patient_id and o.day > person.confirmation_after and o.day <= person.as_of
  union all
  select 'home', h.day, h.day - cast($home_window_days as integer), h.systolic, h.diastolic, h.readings, h.days, h.is_valid
  from home_months as h
  where h.place = 1
),
marks as (
  select
    o.kind, o.kind as setting, o.day, o.systolic, o.diastolic, o.readings, o.days, o.is_valid,
    list(r.source order by r.taken_at, r.source) as sources
  from occasions as o
  join readings as r on r.setting = o.kind and r.day > o.opens_after and r.day <= o.day
  group by o.kind, o.day, o.systolic, o.diastolic, o.readings, o.days, o.is_valid
  union all
  select 'uncounted', r.setting, r.day, r.systolic, r.diastolic, 1, 1, false, [r.source]
  from readings as r
  where not r.is_counted
)
select
  kind, setting, day,
  cast(round_half_up(systolic) as integer) as systolic,
  cast(round_half_up(diastolic) as integer) as diastolic,
  cast(readings as integer) as readings, cast(days as integer) as days, is_valid,
  sources
from marks
order by day, kind, systolic, sources`,
  Row: PressureMark,
} as const
