-- Who had such a rise by each as-of date, after a start of the last 90 days.
select distinct r.patient_id, w.as_of
from ras_creatinine_rises as r
join as_of_windows as w on r.day <= w.as_of and r.started_on > w.last_90_days_after
