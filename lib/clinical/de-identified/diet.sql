-- Diet records, on the person's own count of days.
with numbered as (
  select
    d.patient_id,
    d.recorded_on,
    d.method,
    d.sodium_mg,
    d.potassium_mg,
    row_number() over (partition by d.patient_id order by d.recorded_on, d.import_id, d.line) as number
  from diet_raw as d
)
select
  lines.code as patient_id,
  greatest(lines.born, numbered.recorded_on - lines.shift_days) as recorded_on,
  numbered.method,
  format('{:.10g}', cast(numbered.sodium_mg as double)) as sodium_mg,
  format('{:.10g}', cast(numbered.potassium_mg as double)) as potassium_mg,
  lines.code || '-N' || numbered.number as diet_id
from numbered
join lines on lines.patient_id = numbered.patient_id
order by lines.code, numbered.number
