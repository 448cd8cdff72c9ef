-- Appointments, on the person's own count of days and all at noon.
select
  lines.code || '-A' || row_number() over (partition by lines.code order by a.starts_at, a.import_id, a.line)
    as appointment_id,
  lines.code as patient_id,
  greatest(lines.born, cast(a.starts_at as date) - lines.shift_days) as starts_at,
  staff_codes.code as clinician_id,
  a.kind,
  a.status
from appointments_raw as a
join lines on lines.patient_id = a.patient_id
left join staff_codes on staff_codes.original = a.clinician_id
order by lines.code, a.starts_at, a.import_id, a.line
