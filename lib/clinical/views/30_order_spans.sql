-- When each counted order is active: from its start to `ends_on`, the first inactive day (empty: open), and `runs_out_on`,
-- the first day that its supply does not cover. An order active on no day is no order.
with supplied as (
  select
    o.order_key,
    o.patient_id,
    o.drug,
    o.started_on,
    o.stopped_on,
    o.stop_reason,
    o.started_on + cast(floor(o.supply_days) as integer) + s.drugs_grace_days + 1 as runs_out_on
  from orders as o
  cross join settings as s
  where o.is_counted
),
ends as (
  select
    order_key,
    patient_id,
    drug,
    started_on,
    stop_reason,
    runs_out_on,
    case
      when runs_out_on is null then stopped_on
      when stopped_on is null then runs_out_on
      else least(stopped_on, runs_out_on)
    end as ends_on
  from supplied
)
select order_key, patient_id, drug, started_on, ends_on, runs_out_on, stop_reason
from ends
where ends_on is null or ends_on > started_on
