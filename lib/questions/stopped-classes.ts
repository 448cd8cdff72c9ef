import { z } from "zod"
import { listedIds } from "./listed-ids"
import { ranOut } from "./ran-out"

const text = z.string().nullable()
const number = z.number().nullable()

export const StoppedClass = z.object({
  public_id: z.string(),
  class: z.string(),
  /** The ingredients. */
  drug: z.string(),
  dose: number,
  dose_unit: text,
  times_per_day: number,
  /** The first day without it. */
  stopped_on: z.string(),
  days_ago: z.number().int(),
  /** Whether only the end of a supply says so. */
  is_run_out: z.boolean(),
  stop_reason: text,
  /** Whether a dose of the class was reduced in the 30 days before. */
  is_tapered: z.boolean(),
  /** The first counted reading after it, up to the day asked for. */
  measured_on: text,
  measured_systolic: number,
  measured_diastolic: number,
  measured_source: z.enum(["office", "home", "ambulatory"]).nullable(),
})

export type StoppedClass = z.infer<typeof StoppedClass>

/**
 * The classes of some people that stopped in the 120 days up to a day and are not active on it: a row for each drug that ended
 * then, and the first reading since as it was taken. Shape: parameters `$as_of` and `$listed_ids`, public ids with a comma between.
 */
export const stoppedClasses = {
  sql: `with ${listedIds},
stops as (
  select people.public_id, s.patient_id, s.as_of, s.class, s.stopped_on, s.is_tapered, s.measured_on
  from recent_stops_at as s
  join people on people.patient_id = s.patient_id
  join listed on listed.public_id = people.public_id
  where s.as_of = cast($as_of as date)
),
ended as (
  select distinct
    stops.patient_id, stops.class, stops.stopped_on, o.order_key, o.dose, o.dose_unit, o.times_per_day,
    ${ranOut} as is_run_out,
    o.stop_reason
  from stops
  join class_orders as c
    on c.patient_id = stops.patient_id and c.class = stops.class and c.ends_on = stops.stopped_on
  join orders as o on o.order_key = c.order_key
),
contents as (
  select i.order_key, string_agg(distinct i.ingredient, ' + ' order by i.ingredient) as drug
  from order_ingredients as i
  join ended on ended.order_key = i.order_key
  group by i.order_key
),
first_readings as (
  select
    stops.patient_id, stops.class, stops.stopped_on, r.systolic, r.diastolic, r.setting,
    row_number() over (
      partition by stops.patient_id, stops.class, stops.stopped_on order by r.taken_at, r.systolic desc, r.import_id, r.line
    ) as place
  from stops
  join bp_readings as r on r.patient_id = stops.patient_id and r.is_counted and r.day = stops.measured_on
)
select distinct
  stops.public_id, stops.class, contents.drug,
  cast(ended.dose as double) as dose, ended.dose_unit, cast(ended.times_per_day as double) as times_per_day,
  stops.stopped_on,
  cast(stops.as_of - stops.stopped_on as integer) as days_ago,
  ended.is_run_out, ended.stop_reason, stops.is_tapered, stops.measured_on,
  cast(first_readings.systolic as double) as measured_systolic,
  cast(first_readings.diastolic as double) as measured_diastolic,
  first_readings.setting as measured_source
from stops
join ended
  on ended.patient_id = stops.patient_id and ended.class = stops.class and ended.stopped_on = stops.stopped_on
join contents on contents.order_key = ended.order_key
left join first_readings
  on first_readings.patient_id = stops.patient_id and first_readings.class = stops.class
  and first_readings.stopped_on = stops.stopped_on and first_readings.place = 1
order by stops.public_id, stops.stopped_on desc, stops.class, contents.drug, dose, ended.dose_unit, times_per_day, ended.stop_reason`,
  Row: StoppedClass,
} as const
