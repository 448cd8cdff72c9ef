-- The latest visit to a dietitian up to each as-of date.
select v.patient_id, w.as_of, max(v.started_on) as dietitian_seen_on
from dietitian_visits as v
join as_of_windows as w on v.started_on <= w.as_of
group by v.patient_id, w.as_of
