-- Orders by the ingredients that their text and code say, never in the text's own words; a drug on no list is "other drug".
-- Whether an order counts stays: a route that never counts is "topical". Why it was stopped is free text and left out.
with read as (
  select
    o.*,
    coalesce(nullif(array_to_string(t.ingredients, ' / '), ''), 'other drug') as written,
    row_number() over (partition by o.patient_id order by o.started_on, o.order_key) as number
  from orders as o
  left join drug_texts as t
    on t.text = o.drug
    and t.code_system is not distinct from o.code_system
    and t.code is not distinct from o.code
),
listed_codes as (
  select distinct c.code_system, c.code from code_ingredients as c
)
select
  lines.code as patient_id,
  read.written as drug,
  listed_codes.code_system,
  upper(trim(listed_codes.code)) as code,
  format('{:.10g}', cast(read.dose as double)) as dose,
  case
    when lower(trim(read.dose_unit)) in ('mg', 'g', 'mcg', 'ug', 'µg', 'ml', 'meq', 'mmol', 'unit', 'units', 'iu')
      then lower(trim(read.dose_unit))
  end as dose_unit,
  format('{:.10g}', cast(read.times_per_day as double)) as times_per_day,
  read.not_counted_reason is not distinct from 'as needed' as as_needed,
  case when read.not_counted_reason in ('route', 'ATC group', 'text') then 'topical' else 'oral' end as route,
  greatest(lines.born, read.started_on - lines.shift_days) as started_on,
  case when read.stopped_on is not null then greatest(lines.born, read.stopped_on - lines.shift_days) end as stopped_on,
  format('{:.10g}', cast(read.supply_days as double)) as supply_days,
  lines.code || '-M' || read.number as order_id
from read
join lines on lines.patient_id = read.patient_id
left join listed_codes on listed_codes.code_system = read.code_system and listed_codes.code = read.code
order by lines.code, read.number
