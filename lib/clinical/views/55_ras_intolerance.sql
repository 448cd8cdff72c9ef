-- Allergy and intolerance records that bear on ACE inhibitors and ARBs.
with kinds as (
  select distinct t.substance, t.kind from allergy_kinds as t where t.kind in ('ace_inhibitor', 'arb')
)
select
  f.patient_id,
  kinds.kind,
  f.recorded_on,
  f.starts_on,
  coalesce(f.reaction = 'angioedema', false) as is_angioedema,
  f.substance,
  f.reaction,
  f.import_id,
  f.line
from allergy_records as f
join kinds on kinds.substance = f.substance
