-- Every pressure reading with its calendar day; only office, home and ambulatory ones count.
select
  f.patient_id,
  f.taken_at,
  cast(f.taken_at as date) as day,
  f.systolic,
  f.diastolic,
  f.setting,
  f.pulse,
  f.setting in ('office', 'home', 'ambulatory') as is_counted,
  f.is_date_only,
  f.import_id,
  f.line
from readings_raw as f
