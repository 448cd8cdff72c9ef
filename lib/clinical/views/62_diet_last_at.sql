-- The latest diet record of any series up to each as-of date.
select r.patient_id, w.as_of, max(r.day) as diet_last_on
from sodium_records as r
join as_of_windows as w on r.day <= w.as_of
group by r.patient_id, w.as_of
