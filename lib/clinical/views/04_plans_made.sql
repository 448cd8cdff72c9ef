-- Clinicians' plans to start or to change something, each under the person it is about, with the day by which it is due: two
-- calendar months after it was made.
-- source: common practice, no source
select
  owners.patient_id,
  f.topic,
  f.made_on,
  months_before(f.made_on, -2) as due_on,
  f.undone_on
from decisions_raw as f
join fact_owners as owners on owners.record_id = f.patient_id
where f.kind = 'planned'
