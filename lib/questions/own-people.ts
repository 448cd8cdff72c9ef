/**
 * The steps, each a `with` entry, that lead to `own`: whose people somebody is on `$as_of`, and those of `$clinician`, a staff
 * id (null: of anybody). People belong to the clinician their record names today; to a dietitian, who is on no record, whoever
 * had a visit with them within the months that keep somebody in the panel, or in the running month has one booked.
 */
export const ownPeopleSteps = `
belonging as (
  select people.patient_id, people.clinician_id
  from people
  where people.clinician_id is not null
  union
  select v.patient_id, v.clinician_id
  from visits_raw as v
  join clinicians as dietitian on dietitian.staff_id = v.clinician_id and dietitian.role = 'dietitian'
  join as_of_windows as w on v.started_on > w.panel_visits_after and v.started_on <= w.as_of
  where w.as_of = cast($as_of as date) and v.kind in ('office', 'telehealth')
  union
  select a.patient_id, a.clinician_id
  from appointments_raw as a
  join clinicians as dietitian on dietitian.staff_id = a.clinician_id and dietitian.role = 'dietitian'
  join as_of_windows as w on cast(a.starts_at as date) > w.as_of
  where w.as_of = cast($as_of as date) and w.is_running and a.status = 'booked'
),
own as (
  select distinct b.patient_id
  from belonging as b
  where cast($clinician as varchar) is null or b.clinician_id = cast($clinician as varchar)
)`
