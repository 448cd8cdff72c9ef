-- Every office or telehealth visit to a dietitian. The staff file says who is one; a visit whose clinician it does not know
-- is to nobody.
select v.patient_id, v.started_on, dietitians.name as dietitian_name, v.import_id, v.line
from visits_raw as v
join staff_raw as dietitians on dietitians.staff_id = v.clinician_id and dietitians.role = 'dietitian'
where v.kind in ('office', 'telehealth')
