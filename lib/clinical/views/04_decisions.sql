-- Clinicians' decisions, each under the person it is about: one made under a record that was merged since is theirs.
select owners.patient_id, f.topic, f.kind, f.made_on, f.ends_on, f.undone_on
from decisions_raw as f
join fact_owners as owners on owners.record_id = f.patient_id
