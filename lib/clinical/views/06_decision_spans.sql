-- Decisions with the day on which each no longer holds: its own, or else the end of the months the clinic set.
select
  f.patient_id,
  f.topic,
  f.kind,
  f.made_on,
  coalesce(f.ends_on, months_before(f.made_on, -s.decisions_months)) as holds_until,
  f.undone_on
from decisions as f
cross join settings as s
