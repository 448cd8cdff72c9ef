-- What was done about the pressure in the three months up to each as-of date: the latest day on which a class started
-- or the dose of one of its drugs was raised.
with steps as (
  select distinct c.patient_id, c.course_started_on as day, c.course_started_on as seen_from, cast(null as date) as seen_before
  from class_orders as c
  union all
  select c.patient_id, c.changed_on, c.seen_from, c.seen_before
  from dose_changes as c
  where c.change = 'raised'
)
select steps.patient_id, w.as_of, max(steps.day) as plan_on
from steps
join as_of_windows as w
  on steps.day <= w.as_of
  and steps.day > w.quarter_after
  and steps.seen_from <= w.as_of
  and (steps.seen_before is null or steps.seen_before > w.as_of)
group by steps.patient_id, w.as_of
