-- The same of the people in the panel.
select m.*
from person_diet_months as m
join patient_days as d on d.patient_id = m.patient_id and d.as_of = m.as_of
where d.in_panel
