-- Every potassium with the flag that takes it out of the rules.
select
  f.patient_id,
  f.collected_at,
  f.collected_epoch,
  cast(f.collected_at as date) as day,
  cast(f.value as double) as potassium,
  f.comparator,
  coalesce(f.is_haemolysed, false) as is_haemolysed,
  f.value_text,
  f.unit_text,
  f.import_id,
  f.line
from labs_raw as f
where f.test = 'potassium'
