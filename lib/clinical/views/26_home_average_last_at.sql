-- The latest valid home average that ended on or before each as-of date, however old.
select h.patient_id, w.as_of, max(h.day) as home_average_on
from home_averages as h
join as_of_windows as w on h.day <= w.as_of
where h.is_valid
group by h.patient_id, w.as_of
