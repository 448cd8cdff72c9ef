-- The spine: every person on every as-of date from registration on, with the panel rule and the latest visit that counts for it,
-- however old. In the order of the days, so that whoever asks of one day reads the rows of that day alone.
with visit_days as (
  select
    v.patient_id,
    v.started_on as day,
    lead(v.started_on) over (partition by v.patient_id order by v.started_on) as next_day
  from visits_raw as v
  where v.kind in ('office', 'telehealth', 'dialysis')
  group by v.patient_id, v.started_on
),
seen as (
  select v.patient_id, w.as_of, v.day
  from visit_days as v
  join as_of_windows as w on v.day <= w.as_of and (v.next_day is null or v.next_day > w.as_of)
),
days as (
  select
    people.patient_id,
    w.as_of,
    w.month,
    w.is_running,
    whole_years(people.birth_date, w.as_of) as age_years,
    seen.day as last_visit_on,
    case
      when people.left_on <= w.as_of then 'left'
      when people.died_on <= w.as_of then 'died'
      when whole_years(people.birth_date, w.as_of) < 18 then 'under 18'
      when coalesce(seen.day <= w.panel_visits_after, true) then 'no visit'
    end as panel_reason
  from people
  join as_of_windows as w on people.registered_on <= w.as_of
  left join seen on seen.patient_id = people.patient_id and seen.as_of = w.as_of
)
select patient_id, as_of, month, is_running, age_years, last_visit_on, panel_reason, panel_reason is null as in_panel
from days
order by as_of, patient_id
