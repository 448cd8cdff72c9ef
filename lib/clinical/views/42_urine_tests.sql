-- The urine tests of the laboratory, apart from the rest so that what settings change in them can be computed over few rows.
select
  f.patient_id,
  f.collected_at,
  f.collected_epoch,
  f.test,
  f.comparator,
  f.value,
  f.number,
  f.unit,
  f.value_text,
  f.unit_text,
  f.import_id,
  f.line
from labs_raw as f
where f.test in ('uacr', 'upcr', 'urine_sodium_24h')
