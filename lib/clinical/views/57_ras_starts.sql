-- Every start of an ACE inhibitor or ARB after at least 90 days without either, more than 90 days after registration
-- (before that a start may be the first record of an old drug), with the first potassium and creatinine of days 1 to 28.
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
),
starts as (
  select followed.patient_id, followed.started_on
  from followed
  join people on people.patient_id = followed.patient_id
  where (followed.earlier_end is null or followed.started_on - 90 >= followed.earlier_end)
    and followed.started_on > people.registered_on + 90
),
potassium as (
  select starts.patient_id, starts.started_on, min(k.day) as potassium_on
  from starts
  join potassium_results as k
    on k.patient_id = starts.patient_id and k.day > starts.started_on and k.day <= starts.started_on + 28
  where not k.is_haemolysed
  group by starts.patient_id, starts.started_on
),
creatinine as (
  select starts.patient_id, starts.started_on, min(r.day) as creatinine_on
  from starts
  join filtration_results as r
    on r.patient_id = starts.patient_id and r.day > starts.started_on and r.day <= starts.started_on + 28
  where r.test = 'creatinine'
  group by starts.patient_id, starts.started_on
)
select
  starts.patient_id,
  starts.started_on,
  potassium.potassium_on,
  creatinine.creatinine_on,
  case
    when potassium.potassium_on >= creatinine.creatinine_on then potassium.potassium_on - starts.started_on
    else creatinine.creatinine_on - starts.started_on
  end as checked_days
from starts
left join potassium on potassium.patient_id = starts.patient_id and potassium.started_on = starts.started_on
left join creatinine on creatinine.patient_id = starts.patient_id and creatinine.started_on = starts.started_on
