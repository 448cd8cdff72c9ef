-- Days on which a creatinine says nothing about the stable state: an inpatient or emergency visit is open, both ends included.
-- Without an end: an emergency lasts that day, a stay until the day before the next office or telehealth visit, at most 30 days.
with next_contacts as (
  select v.patient_id, v.started_on, min(later.started_on) as contact_on
  from visits_raw as v
  join visits_raw as later
    on later.patient_id = v.patient_id and later.kind in ('office', 'telehealth') and later.started_on > v.started_on
  where v.kind = 'inpatient'
  group by v.patient_id, v.started_on
)
select distinct
  v.patient_id,
  v.started_on as first_day,
  case
    when v.ended_on is not null then v.ended_on
    when v.kind = 'emergency' then v.started_on
    when next_contacts.contact_on is null then v.started_on + 29
    else least(next_contacts.contact_on - 1, v.started_on + 29)
  end as last_day
from visits_raw as v
left join next_contacts
  on next_contacts.patient_id = v.patient_id and next_contacts.started_on = v.started_on
where v.kind in ('inpatient', 'emergency')
