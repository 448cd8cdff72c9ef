-- Patients with a class that stopped 30 to 119 days before each as-of date and is not active on it: whether a counted
-- reading followed every such stop within 30 days.
select s.patient_id, s.as_of, bool_and(s.reading_on is not null) as are_stops_followed
from recent_stops_at as s
where s.stopped_on <= s.as_of - 30
group by s.patient_id, s.as_of
