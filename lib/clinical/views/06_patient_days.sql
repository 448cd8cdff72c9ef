-- The spine: every person on every as-of date from registration on, with the panel rule.
with seen as (
  select distinct people.patient_id, w.as_of
  from people
  join visits_raw as v on v.patient_id = people.patient_id and v.kind in ('office', 'telehealth', 'dialysis')
  join as_of_windows as w on v.started_on > w.panel_visits_after and v.started_on <= w.as_of
),
days as (
  select
    people.patient_id,
    w.as_of,
    w.month,
    w.is_running,
    whole_years(people.birth_date, w.as_of) as age_years,
    case
      when people.left_on <= w.as_of then 'left'
      when people.died_on <= w.as_of then 'died'
      when whole_years(people.birth_date, w.as_of) < 18 then 'under 18'
      when seen.patient_id is null then 'no visit'
    end as panel_reason
  from people
  join as_of_windows as w on people.registered_on <= w.as_of
  left join seen on seen.patient_id = people.patient_id and seen.as_of = w.as_of
)
select patient_id, as_of, month, is_running, age_years, panel_reason, panel_reason is null as in_panel
from days
