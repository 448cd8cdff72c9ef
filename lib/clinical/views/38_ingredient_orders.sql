-- Every counted order of a single ingredient of a counted class with what it adds to the ingredient's daily dose.
-- Seen from before `only_supply_before` it ends by its supply alone (a stop that lies ahead says only "not yet"); such an
-- order adds nothing from `next_started_on`, the day on which a later order of the ingredient starts.
with single as (
  select i.order_key, min(i.ingredient) as ingredient, min(i.class) as class
  from order_ingredients as i
  group by i.order_key
  having count(*) = 1 and count(i.class) = 1
),
spans as (
  select
    spans.patient_id,
    single.ingredient,
    single.class,
    spans.order_key,
    spans.started_on,
    spans.ends_on,
    o.dose,
    nullif(lower(trim(o.dose_unit)), '') as dose_unit,
    o.times_per_day,
    case
      when spans.runs_out_on is null then spans.started_on
      when o.stopped_on is null or o.stopped_on > spans.runs_out_on then date '9999-12-31'
      else o.stopped_on
    end as only_supply_before
  from order_spans as spans
  join single on single.order_key = spans.order_key
  join orders as o on o.order_key = spans.order_key
),
starts as (
  select
    days.patient_id,
    days.ingredient,
    days.started_on,
    lag(days.started_on) over (partition by days.patient_id, days.ingredient order by days.started_on) as earlier_started_on,
    lead(days.started_on) over (partition by days.patient_id, days.ingredient order by days.started_on) as next_started_on
  from (select distinct spans.patient_id, spans.ingredient, spans.started_on from spans) as days
)
select
  spans.patient_id,
  spans.ingredient,
  spans.class,
  spans.order_key,
  spans.started_on,
  spans.ends_on,
  spans.dose,
  spans.dose_unit,
  spans.times_per_day,
  spans.only_supply_before,
  starts.earlier_started_on,
  starts.next_started_on
from spans
join starts
  on starts.patient_id = spans.patient_id
  and starts.ingredient = spans.ingredient
  and starts.started_on = spans.started_on
