-- The starts of an ACE inhibitor or ARB after at least 90 days without either, more than 90 days after registration
-- (before that a start may be the first record of an old drug), with their tests and how many days these took.
with orders_of_either as (
  select distinct c.order_key, c.patient_id, c.started_on, c.ends_on
  from class_orders as c
  where c.kind in ('ace_inhibitor', 'arb')
),
followed as (
  select
    o.patient_id,
    o.started_on,
    max(coalesce(o.ends_on, date '9999-12-31')) over (
      partition by o.patient_id order by o.started_on, o.order_key
      rows between unbounded preceding and 1 preceding
    ) as earlier_end
  from orders_of_either as o
)
select
  s.patient_id,
  s.started_on,
  s.potassium_on,
  s.creatinine_on,
  case
    when s.potassium_on >= s.creatinine_on then s.potassium_on - s.started_on
    else s.creatinine_on - s.started_on
  end as checked_days
from followed
join people on people.patient_id = followed.patient_id
join ras_kind_starts as s on s.patient_id = followed.patient_id and s.started_on = followed.started_on
where (followed.earlier_end is null or followed.started_on - 90 >= followed.earlier_end)
  and followed.started_on > people.registered_on + 90
