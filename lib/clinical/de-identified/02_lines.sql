-- Each person's own count of days: day 0 is the first on which the clinic had to do with them, at most 24 years before the
-- last, and is written as 1 Jan 2001 for everybody; every day of the person is moved by `shift_days`. `born` is day 0 so many
-- whole years earlier as the person was old; whoever is over 89 on any day of the record is 90 on day 0, one group whatever
-- their age. Which year day 0 was in is not handed out: with the days between facts it could tell the day.
with contacts as (
  select people.patient_id, people.registered_on as day from people
  union all
  select v.patient_id, v.started_on from visits_raw as v
  union all
  select r.patient_id, cast(r.taken_at as date) from readings_raw as r
  union all
  select l.patient_id, cast(l.collected_at as date) from labs_raw as l
  union all
  select d.patient_id, d.recorded_on from diet_raw as d
),
others as (
  select o.patient_id, o.started_on as day from orders_raw as o
  union all
  select o.patient_id, o.stopped_on from orders_raw as o
  union all
  select p.patient_id, greatest(p.onset_on, p.recorded_on, p.resolved_on) from problems_raw as p
  union all
  select g.patient_id, g.recorded_on from allergies_raw as g
  union all
  select a.patient_id, cast(a.starts_at as date) from appointments_raw as a
  union all
  select v.patient_id, v.ended_on from visits_raw as v
  union all
  select people.patient_id, greatest(people.left_on, people.died_on) from people
),
firsts as (
  select contacts.patient_id, min(contacts.day) as day, max(contacts.day) as last_contact
  from contacts
  group by contacts.patient_id
),
lasts as (
  select dated.patient_id, max(dated.day) as day
  from (select patient_id, day from contacts union all select patient_id, day from others) as dated
  group by dated.patient_id
),
spans as (
  select
    people.patient_id,
    people.birth_date,
    greatest(firsts.day, lasts.day - 24 * 365) as first_day,
    lasts.day as last_day
  from people
  join firsts on firsts.patient_id = people.patient_id
  join lasts on lasts.patient_id = people.patient_id
),
aged as (
  select
    spans.patient_id,
    spans.first_day,
    case
      when whole_years(spans.birth_date, spans.last_day) >= 90 then 90
      else greatest(whole_years(spans.birth_date, spans.first_day), 0)
    end as age_years
  from spans
)
select
  aged.patient_id,
  codes.code,
  cast(aged.first_day - date '2001-01-01' as integer) as shift_days,
  make_date(cast(2001 - aged.age_years as bigint), 1, 1) as born
from aged
join person_codes as codes on codes.original = aged.patient_id
