-- The first appointment still booked after each as-of date.
select a.patient_id, w.as_of, min(cast(a.starts_at as date)) as next_visit_on
from appointments_raw as a
join as_of_windows as w on cast(a.starts_at as date) > w.as_of
where a.status = 'booked' and w.is_running
group by a.patient_id, w.as_of
