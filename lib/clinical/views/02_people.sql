-- One row per person: survivors of merges, test patients left out.
select
  r.patient_id,
  r.public_id,
  r.given_name,
  r.family_name,
  r.birth_date,
  r.sex,
  r.language,
  coalesce(r.interpreter_needed, false) as interpreter_needed,
  r.race,
  r.ethnicity,
  r.phone,
  r.email,
  r.preferred_contact,
  coalesce(r.do_not_contact, false) as do_not_contact,
  r.site,
  clinician.staff_id as clinician_id,
  clinician.name as clinician_name,
  r.registered_on,
  r.left_on,
  r.left_reason,
  r.died_on,
  r.import_id,
  r.line,
  r.patient_id in (select merged.patient_id from identities as merged where merged.is_merged) as has_merged_records
from patient_records_raw as r
join identities on identities.record_id = r.patient_id
left join staff_raw as clinician on clinician.staff_id = r.clinician_id
where not identities.is_merged and not identities.is_test
