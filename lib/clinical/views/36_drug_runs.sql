-- The unbroken stretches in which a class, or a kind of RAS blocker, was active, whatever orders made them up:
-- from `started_on` to `ends_on`, the first inactive day (empty: open), and the day the next stretch starts.
with spans as (
  select distinct c.patient_id, 'class' as what, c.class as word, c.order_key, c.started_on, c.ends_on
  from class_orders as c
  union all
  select distinct c.patient_id, 'kind', c.kind, c.order_key, c.started_on, c.ends_on
  from class_orders as c
  where c.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor')
),
followed as (
  select
    spans.*,
    max(coalesce(ends_on, date '9999-12-31')) over (
      partition by patient_id, what, word order by started_on, order_key
      rows between unbounded preceding and 1 preceding
    ) as earlier_end
  from spans
),
marked as (
  select
    followed.*,
    sum(case when earlier_end is null or started_on > earlier_end then 1 else 0 end) over (
      partition by patient_id, what, word order by started_on, order_key
      rows between unbounded preceding and current row
    ) as run
  from followed
),
runs as (
  select
    patient_id,
    what,
    word,
    min(started_on) as started_on,
    case when bool_or(ends_on is null) then null else max(ends_on) end as ends_on
  from marked
  group by patient_id, what, word, run
)
select
  runs.patient_id,
  runs.what,
  runs.word,
  runs.started_on,
  runs.ends_on,
  lead(runs.started_on) over (partition by runs.patient_id, runs.what, runs.word order by runs.started_on) as next_started_on
from runs
