-- Clinicians' decisions that the definitions count as an exception while they hold, each under the person it is about: one made
-- under a record that was merged since is theirs. A plan and a remark that the data are wrong are none.
select owners.patient_id, f.topic, f.kind, f.made_on, f.ends_on, f.undone_on
from decisions_raw as f
join fact_owners as owners on owners.record_id = f.patient_id
where f.kind in ('contraindicated', 'not tolerated', 'patient declined', 'deferred')
