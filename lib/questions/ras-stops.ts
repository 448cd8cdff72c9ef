import { z } from "zod"
import { listedIds } from "./listed-ids"
import { ranOut } from "./ran-out"

const text = z.string().nullable()

export const RasStop = z.object({
  public_id: z.string(),
  /** The ingredients. */
  drug: z.string(),
  dose: z.number().nullable(),
  dose_unit: text,
  times_per_day: z.number().nullable(),
  stopped_on: z.string(),
  /** Whether no stop is recorded and the supply ran out. */
  is_run_out: z.boolean(),
  stop_reason: text,
  /** Who had the visit of that day, as the staff list has it; the extract does not say who stopped an order. */
  seen_by: text,
})

export type RasStop = z.infer<typeof RasStop>

/** The ACE inhibitor or ARB order that ended last of those listed who take none on a day. */
export const rasStops = {
  sql: `with ${listedIds},
ended as (
  select
    p.public_id, p.patient_id, p.ras_stopped_on, p.ras_stop_reason, o.order_key, o.dose, o.dose_unit, o.times_per_day,
    ${ranOut} as is_run_out,
    row_number() over (partition by p.patient_id order by c.started_on desc, c.order_key desc) as place
  from patient_month as p
  join listed on listed.public_id = p.public_id
  join order_spans as c
    on c.patient_id = p.patient_id and c.ends_on = p.ras_stopped_on and c.drug = p.ras_stopped_drug
  join orders as o on o.order_key = c.order_key
  where p.as_of = cast($as_of as date)
),
contents as (
  select i.order_key, string_agg(distinct i.ingredient, ' + ' order by i.ingredient) as drug
  from order_ingredients as i
  join ended on ended.order_key = i.order_key
  group by i.order_key
),
seen as (
  select v.patient_id, v.started_on, min(staff.name) as name
  from visits_raw as v
  join ended on ended.patient_id = v.patient_id and ended.ras_stopped_on = v.started_on
  join clinicians as staff on staff.staff_id = v.clinician_id
  where v.kind in ('office', 'telehealth')
  group by v.patient_id, v.started_on
  having count(distinct staff.staff_id) = 1
)
select
  ended.public_id, contents.drug, cast(ended.dose as double) as dose, ended.dose_unit,
  cast(ended.times_per_day as double) as times_per_day, ended.ras_stopped_on as stopped_on, ended.is_run_out,
  ended.ras_stop_reason as stop_reason, seen.name as seen_by
from ended
join contents on contents.order_key = ended.order_key
left join seen
  on seen.patient_id = ended.patient_id and seen.started_on = ended.ras_stopped_on and not ended.is_run_out
where ended.place = 1
order by ended.public_id`,
  Row: RasStop,
} as const
