-- Every day on which an ingredient's daily dose was raised or reduced by a new order: the dose on the order's first day
-- against that on the day before, or, where nothing was taken then, that of the order before (orders that start on one day
-- are added). A missing dose, different units, or times a day known for only some of the orders: neither.
-- What an order with a supply adds depends on whether its stop lies ahead, so each change holds for the as-of dates
-- from `seen_from` to the day before `seen_before` (empty: for good).
with starts as (
  select distinct o.patient_id, o.ingredient, o.class, o.started_on as changed_on, o.earlier_started_on
  from ingredient_orders as o
),
around as (
  select
    starts.patient_id,
    starts.ingredient,
    starts.changed_on,
    o.dose,
    o.dose_unit,
    o.times_per_day,
    o.only_supply_before,
    o.ends_on is null or o.ends_on > starts.changed_on as is_on_the_day,
    o.started_on < starts.changed_on as is_on_the_day_before,
    coalesce(o.next_started_on <= starts.changed_on, false) as is_followed,
    o.next_started_on < starts.changed_on as was_followed
  from starts
  join ingredient_orders as o
    on o.patient_id = starts.patient_id
    and o.ingredient = starts.ingredient
    and o.started_on <= starts.changed_on
    and (o.ends_on is null or o.ends_on >= starts.changed_on)
),
seen_days as (
  select starts.patient_id, starts.ingredient, starts.changed_on, starts.changed_on as seen_from
  from starts
  union
  select around.patient_id, around.ingredient, around.changed_on, around.only_supply_before
  from around
  where around.is_followed
    and around.only_supply_before > around.changed_on
    and around.only_supply_before < date '9999-12-31'
),
seen as (
  select
    d.patient_id,
    d.ingredient,
    d.changed_on,
    d.seen_from,
    lead(d.seen_from) over (partition by d.patient_id, d.ingredient, d.changed_on order by d.seen_from) as seen_before
  from seen_days as d
),
taken as (
  select
    seen.patient_id,
    seen.ingredient,
    seen.changed_on,
    seen.seen_from,
    around.dose,
    around.dose_unit,
    around.times_per_day,
    around.is_on_the_day
      and not (around.is_followed and seen.seen_from < around.only_supply_before) as is_after,
    around.is_on_the_day_before
      and not (around.was_followed and seen.seen_from < around.only_supply_before) as is_before
  from seen
  join around
    on around.patient_id = seen.patient_id
    and around.ingredient = seen.ingredient
    and around.changed_on = seen.changed_on
),
without_day_before as (
  select taken.patient_id, taken.ingredient, taken.changed_on, taken.seen_from
  from taken
  group by taken.patient_id, taken.ingredient, taken.changed_on, taken.seen_from
  having not bool_or(taken.is_before)
),
compared as (
  select t.patient_id, t.ingredient, t.changed_on, t.seen_from, true as is_after, t.dose, t.dose_unit, t.times_per_day
  from taken as t
  where t.is_after
  union all
  select t.patient_id, t.ingredient, t.changed_on, t.seen_from, false, t.dose, t.dose_unit, t.times_per_day
  from taken as t
  where t.is_before
  union all
  select w.patient_id, w.ingredient, w.changed_on, w.seen_from, false, o.dose, o.dose_unit, o.times_per_day
  from without_day_before as w
  join starts
    on starts.patient_id = w.patient_id and starts.ingredient = w.ingredient and starts.changed_on = w.changed_on
  join ingredient_orders as o
    on o.patient_id = w.patient_id and o.ingredient = w.ingredient and o.started_on = starts.earlier_started_on
),
totals as (
  select
    patient_id,
    ingredient,
    changed_on,
    seen_from,
    sum(case when is_after then dose * coalesce(times_per_day, 1) end) as dose_after,
    sum(case when not is_after then dose * coalesce(times_per_day, 1) end) as dose_before
  from compared
  group by patient_id, ingredient, changed_on, seen_from
  having count(dose) = count(*)
    and count(dose_unit) = count(*)
    and min(dose_unit) = max(dose_unit)
    and count(times_per_day) in (0, count(*))
)
select
  totals.patient_id,
  totals.ingredient,
  starts.class,
  totals.changed_on,
  seen.seen_from,
  seen.seen_before,
  case when totals.dose_after > totals.dose_before then 'raised' else 'reduced' end as change,
  totals.dose_before,
  totals.dose_after
from totals
join starts
  on starts.patient_id = totals.patient_id
  and starts.ingredient = totals.ingredient
  and starts.changed_on = totals.changed_on
join seen
  on seen.patient_id = totals.patient_id
  and seen.ingredient = totals.ingredient
  and seen.changed_on = totals.changed_on
  and seen.seen_from = totals.seen_from
where totals.dose_after <> totals.dose_before
