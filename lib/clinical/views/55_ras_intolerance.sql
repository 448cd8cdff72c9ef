-- Allergy and intolerance records that bear on ACE inhibitors and ARBs, from the day they were recorded
-- (without a day: from registration).
with kinds as (
  select distinct t.substance, t.kind from allergy_kinds as t where t.kind in ('ace_inhibitor', 'arb')
)
select
  f.patient_id,
  kinds.kind,
  f.recorded_on,
  coalesce(f.recorded_on, people.registered_on) as starts_on,
  coalesce(f.reaction = 'angioedema', false) as is_angioedema,
  f.substance,
  f.reaction,
  f.import_id,
  f.line
from allergies_raw as f
join kinds on kinds.substance = f.substance
join people on people.patient_id = f.patient_id
