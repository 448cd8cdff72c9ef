-- Patients with a class that stopped 30 to 119 days before each as-of date and is not active on it: whether a counted
-- reading followed every such stop within 30 days.
select
  s.patient_id,
  w.as_of,
  bool_and(s.reading_on is not null) as are_stops_followed
from class_stops as s
join as_of_windows as w on s.stopped_on <= w.as_of - 30 and s.stopped_on > w.as_of - 120
left join drug_runs as active
  on active.what = 'class'
  and active.patient_id = s.patient_id
  and active.word = s.class
  and active.started_on <= w.as_of
  and coalesce(active.ends_on, date '9999-12-31') > w.as_of
where active.patient_id is null
group by s.patient_id, w.as_of
