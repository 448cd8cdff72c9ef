-- Visits, on the person's own count of days.
select
  lines.code || '-V' || row_number() over (partition by lines.code order by v.started_on, v.import_id, v.line) as visit_id,
  lines.code as patient_id,
  greatest(lines.born, v.started_on - lines.shift_days) as started_on,
  case when v.ended_on is not null then greatest(lines.born, v.ended_on - lines.shift_days) end as ended_on,
  v.kind,
  staff_codes.code as clinician_id
from visits_raw as v
join lines on lines.patient_id = v.patient_id
left join staff_codes on staff_codes.original = v.clinician_id
order by lines.code, v.started_on, v.import_id, v.line
