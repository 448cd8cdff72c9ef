-- For each as-of date, the ACE inhibitor or ARB order that ended last, for patients who had one on an earlier day.
with ended as (
  select distinct c.order_key, c.patient_id, c.ends_on, c.started_on
  from class_orders as c
  where c.kind in ('ace_inhibitor', 'arb') and c.ends_on is not null
),
ranges as (
  select
    ended.order_key,
    ended.patient_id,
    ended.ends_on,
    lead(ended.ends_on) over (
      partition by ended.patient_id order by ended.ends_on, ended.started_on, ended.order_key
    ) as next_end
  from ended
)
select
  ranges.patient_id,
  w.as_of,
  spans.drug as ras_stopped_drug,
  ranges.ends_on as ras_stopped_on,
  spans.stop_reason as ras_stop_reason
from ranges
join as_of_windows as w on ranges.ends_on <= w.as_of and (ranges.next_end is null or ranges.next_end > w.as_of)
join order_spans as spans on spans.order_key = ranges.order_key
