-- Results of the tests on the program's list, in the unit and spelling they were checked in; times as those of readings.
with placed as (
  select
    l.patient_id,
    cast(l.collected_at as date) as day,
    dense_rank() over (partition by l.patient_id, cast(l.collected_at as date) order by l.collected_epoch) as place,
    row_number() over (partition by l.patient_id order by l.collected_epoch, l.import_id, l.line) as number,
    l.test,
    case
      when l.number is null then lower(l.value_text)
      else coalesce(l.comparator, '') || format('{:.10g}', cast(l.number as double))
    end as value,
    l.unit,
    l.is_haemolysed
  from labs_raw as l
)
select
  lines.code as patient_id,
  strftime(
    cast(greatest(lines.born, placed.day - lines.shift_days) as timestamp)
      + to_minutes(719 + least(placed.place, 700)),
    '%Y-%m-%dT%H:%M'
  ) as collected_at,
  placed.test,
  placed.value,
  placed.unit,
  placed.is_haemolysed as haemolysed,
  lines.code || '-L' || placed.number as lab_id
from placed
join lines on lines.patient_id = placed.patient_id
order by lines.code, placed.number
