-- Each person's mean sodium in a month, and its change, of the people in the panel of the tried window.
select m.*
from person_diet_months as m
join tried_panel as v on v.patient_id = m.patient_id and v.as_of = m.as_of
where v.in_panel
