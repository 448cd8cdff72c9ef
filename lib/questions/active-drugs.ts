import { z } from "zod"
import { listedIds } from "./listed-ids"

const text = z.string().nullable()
const number = z.number().nullable()

export const ActiveDrug = z.object({
  public_id: z.string(),
  /** Null where the drug counts for no class; a pill of several classes stands under each. */
  class: text,
  /** The ingredients. */
  drug: z.string(),
  dose: number,
  dose_unit: text,
  times_per_day: number,
  /** The usual maximum a day, mg; null for a pill of several drugs and where none is known. */
  max_daily_mg: number,
  /** Whether the drug raises the pressure or blunts what lowers it. */
  interferes: z.boolean(),
})

export type ActiveDrug = z.infer<typeof ActiveDrug>

/**
 * What some people take on a day of what counts for a class or interferes with the pressure, each with its dose as ordered.
 * Shape: parameters `$as_of` and `$listed_ids`, public ids with a comma between.
 */
export const activeDrugs = {
  sql: `with ${listedIds},
active as (
  select people.public_id, spans.order_key, o.dose, o.dose_unit, o.times_per_day
  from order_spans as spans
  join people on people.patient_id = spans.patient_id
  join listed on listed.public_id = people.public_id
  join orders as o on o.order_key = spans.order_key
  left join order_doses as doses on doses.order_key = spans.order_key
  where spans.started_on <= cast($as_of as date)
    and (spans.ends_on is null or spans.ends_on > cast($as_of as date))
    -- A supply that the next one has replaced adds nothing to the dose.
    and (doses.order_key is null
      or not (coalesce(doses.next_started_on <= cast($as_of as date), false)
        and cast($as_of as date) < doses.only_supply_before))
),
contents as (
  select
    i.order_key,
    string_agg(distinct i.ingredient, ' + ' order by i.ingredient) as drug,
    case when count(distinct i.ingredient) = 1 then min(cast(known.max_daily_mg as double)) end as max_daily_mg,
    coalesce(bool_or(known.interferes = 'yes'), false) as interferes
  from order_ingredients as i
  join active on active.order_key = i.order_key
  left join drug_ingredients as known on known.ingredient = i.ingredient
  group by i.order_key
)
select distinct
  active.public_id,
  supplied.class,
  contents.drug,
  cast(active.dose as double) as dose,
  active.dose_unit,
  cast(active.times_per_day as double) as times_per_day,
  contents.max_daily_mg,
  contents.interferes
from active
join contents on contents.order_key = active.order_key
left join class_orders as supplied on supplied.order_key = active.order_key
where supplied.class is not null or contents.interferes
order by active.public_id, supplied.class nulls last, contents.drug, dose, active.dose_unit, times_per_day`,
  Row: ActiveDrug,
} as const
