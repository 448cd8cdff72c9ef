-- Stretches of days that no supply of an ingredient of a counted class covered, from the first day uncovered to the day the
-- next order of it starts (empty: none yet). Supplies are not added together; days after a stop are no gap.
with supplied as (
  select distinct
    spans.patient_id,
    i.ingredient,
    spans.order_key,
    spans.started_on,
    case
      when spans.runs_out_on is null then coalesce(spans.ends_on, date '9999-12-31')
      else least(spans.ends_on, spans.runs_out_on - s.drugs_grace_days - 1)
    end as covered_before,
    coalesce(spans.ends_on > spans.runs_out_on - s.drugs_grace_days - 1, false) as is_run_out
  from order_spans as spans
  join order_ingredients as i on i.order_key = spans.order_key and i.class is not null
  cross join settings as s
),
followed as (
  select
    patient_id,
    ingredient,
    lead(started_on) over (partition by patient_id, ingredient order by started_on, order_key) as next_started_on,
    max(covered_before) over (
      partition by patient_id, ingredient order by started_on, order_key
      rows between unbounded preceding and current row
    ) as gap_from,
    max(case when is_run_out then covered_before end) over (
      partition by patient_id, ingredient order by started_on, order_key
      rows between unbounded preceding and current row
    ) as run_out_on
  from supplied
)
select f.patient_id, f.ingredient, f.gap_from, f.next_started_on as gap_before
from followed as f
where f.gap_from = f.run_out_on and (f.next_started_on is null or f.next_started_on > f.gap_from)
