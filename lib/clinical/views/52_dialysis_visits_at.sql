-- Patients with a dialysis visit in the last three months of each as-of date.
select distinct v.patient_id, w.as_of
from visits_raw as v
join as_of_windows as w on v.started_on > w.quarter_after and v.started_on <= w.as_of
where v.kind = 'dialysis'
