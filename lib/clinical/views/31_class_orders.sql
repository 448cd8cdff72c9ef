-- Each active-at-some-time order under each class it supplies, with the day its course of that class started:
-- a class starts when an order of it starts and the class was active on none of the 90 days before.
-- The class word follows the clinic's counting; `family` is the class whatever the counting, `kind` the finer word.
with supplied as (
  select distinct
    spans.order_key,
    spans.patient_id,
    spans.started_on,
    spans.ends_on,
    i.kind,
    i.class as family,
    case
      when i.class = 'ras_blocker' and s.drugs_counting in ('ras_separate', 'both_separate')
        then i.kind
      when i.class = 'diuretic' and s.drugs_counting in ('diuretics_by_kind', 'both_separate')
        then case when i.kind = 'thiazide_like' then 'thiazide' else i.kind end
      else i.class
    end as class
  from order_spans as spans
  join order_ingredients as i on i.order_key = spans.order_key
  cross join settings as s
  where i.class is not null
),
class_spans as (
  select distinct order_key, patient_id, class, started_on, ends_on from supplied
),
followed as (
  select
    class_spans.*,
    max(coalesce(ends_on, date '9999-12-31')) over (
      partition by patient_id, class order by started_on, order_key
      rows between unbounded preceding and 1 preceding
    ) as earlier_end
  from class_spans
),
marked as (
  select
    followed.*,
    sum(case when earlier_end is null or started_on - 90 >= earlier_end then 1 else 0 end) over (
      partition by patient_id, class order by started_on, order_key
      rows between unbounded preceding and current row
    ) as course
  from followed
),
courses as (
  select
    order_key,
    class,
    min(started_on) over (partition by patient_id, class, course) as course_started_on
  from marked
)
select
  supplied.order_key,
  supplied.patient_id,
  supplied.class,
  supplied.family,
  supplied.kind,
  supplied.started_on,
  supplied.ends_on,
  courses.course_started_on
from supplied
join courses on courses.order_key = supplied.order_key and courses.class = supplied.class
