-- Allergy and intolerance records of every kind, from the day they were recorded (without a day: from registration).
select
  f.patient_id,
  f.substance,
  f.reaction,
  f.recorded_on,
  coalesce(f.recorded_on, people.registered_on) as starts_on,
  f.import_id,
  f.line
from allergies_raw as f
join people on people.patient_id = f.patient_id
