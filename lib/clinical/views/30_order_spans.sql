-- When each counted order is active: from its start to `ends_on`, the first inactive day (empty: open).
-- An order active on no day is no order.
with ends as (
  select
    o.order_key,
    o.patient_id,
    o.drug,
    o.started_on,
    o.stop_reason,
    case
      when o.supply_days is null then o.stopped_on
      when o.stopped_on is null then o.started_on + cast(floor(o.supply_days) as integer) + s.drugs_grace_days + 1
      else least(o.stopped_on, o.started_on + cast(floor(o.supply_days) as integer) + s.drugs_grace_days + 1)
    end as ends_on
  from orders as o
  cross join settings as s
  where o.is_counted
)
select order_key, patient_id, drug, started_on, ends_on, stop_reason
from ends
where ends_on is null or ends_on > started_on
