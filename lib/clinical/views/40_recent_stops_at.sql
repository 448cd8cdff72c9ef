-- Every stop of a class in the 120 days up to each as-of date, of a class that is not active on it: whether a dose of one of
-- its drugs was reduced in the 30 days before, the first counted reading of the 30 days after, and the first one at all.
with stops as (
  select s.patient_id, w.as_of, s.class, s.stopped_on, s.next_started_on, s.reading_on
  from class_stops as s
  join as_of_windows as w on s.stopped_on <= w.as_of and s.stopped_on > w.as_of - 120
  left join drug_runs as active
    on active.what = 'class'
    and active.patient_id = s.patient_id
    and active.word = s.class
    and active.started_on <= w.as_of
    and coalesce(active.ends_on, date '9999-12-31') > w.as_of
  where active.patient_id is null
),
taken as (
  select distinct c.patient_id, c.class, i.ingredient
  from class_orders as c
  join order_ingredients as i
    on i.order_key = c.order_key and i.class = c.family and i.kind is not distinct from c.kind
),
tapered as (
  select distinct stops.patient_id, stops.as_of, stops.class, stops.stopped_on
  from stops
  join taken on taken.patient_id = stops.patient_id and taken.class = stops.class
  join dose_changes as c
    on c.patient_id = stops.patient_id
    and c.ingredient = taken.ingredient
    and c.changed_on >= stops.stopped_on - 30
    and c.changed_on < stops.stopped_on
    and c.seen_from <= stops.as_of
    and (c.seen_before is null or c.seen_before > stops.as_of)
  where c.change = 'reduced'
),
measured as (
  select stops.patient_id, stops.as_of, stops.class, stops.stopped_on, min(c.day) as measured_on
  from stops
  join counted_days as c
    on c.patient_id = stops.patient_id and c.day > stops.stopped_on and c.day <= stops.as_of
  group by stops.patient_id, stops.as_of, stops.class, stops.stopped_on
)
select
  stops.patient_id,
  stops.as_of,
  stops.class,
  stops.stopped_on,
  stops.next_started_on,
  tapered.patient_id is not null as is_tapered,
  case when stops.reading_on <= stops.as_of then stops.reading_on end as reading_on,
  measured.measured_on
from stops
left join tapered
  on tapered.patient_id = stops.patient_id
  and tapered.as_of = stops.as_of
  and tapered.class = stops.class
  and tapered.stopped_on = stops.stopped_on
left join measured
  on measured.patient_id = stops.patient_id
  and measured.as_of = stops.as_of
  and measured.class = stops.class
  and measured.stopped_on = stops.stopped_on
