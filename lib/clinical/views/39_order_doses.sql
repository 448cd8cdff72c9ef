-- What each counted order of a single pressure drug adds a day, in mg, where dose, unit and times a day are all known.
with units (dose_unit, mg) as (
  values ('mg', 1.0), ('milligram', 1.0), ('milligrams', 1.0), ('g', 1000.0), ('ug', 0.001), ('mcg', 0.001), ('µg', 0.001), ('μg', 0.001),
    ('microgram', 0.001), ('micrograms', 0.001)
)
select
  o.order_key,
  o.only_supply_before,
  o.next_started_on,
  cast(o.dose as double) * cast(o.times_per_day as double) * cast(units.mg as double) as daily_mg
from ingredient_orders as o
left join units on units.dose_unit = o.dose_unit
