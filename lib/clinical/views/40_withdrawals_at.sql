-- Clonidine-like drugs and beta blockers stopped in the 60 days up to each as-of date and not active on it:
-- 'unwatched' without a dose reduction in the 30 days before the stop and without a counted reading in the 14 days after,
-- 'waiting' while those 14 days are not over, else 'watched'. Of two classes the worse speaks.
-- `untapered_stop_on`: the latest day on which one of them stopped without a dose reduction before, measured since or not.
with stopped as (
  select s.patient_id, s.class, s.stopped_on, s.reading_on, w.as_of
  from class_stops as s
  join as_of_windows as w
    on s.stopped_on <= w.as_of
    and s.stopped_on > w.as_of - 60
    and (s.next_started_on is null or s.next_started_on > w.as_of)
  where s.class in ('central_agonist', 'beta_blocker')
),
tapered as (
  select distinct stopped.patient_id, stopped.class, stopped.as_of
  from stopped
  join dose_changes as c
    on c.patient_id = stopped.patient_id
    and c.class = stopped.class
    and c.changed_on >= stopped.stopped_on - 30
    and c.changed_on < stopped.stopped_on
    and c.seen_from <= stopped.as_of
    and (c.seen_before is null or c.seen_before > stopped.as_of)
  where c.change = 'reduced'
),
judged as (
  select
    stopped.patient_id,
    stopped.as_of,
    case when tapered.patient_id is null then stopped.stopped_on end as untapered_stop_on,
    case
      when tapered.patient_id is not null then 'watched'
      when stopped.reading_on <= least(stopped.as_of, stopped.stopped_on + 14) then 'watched'
      when stopped.as_of < stopped.stopped_on + 14 then 'waiting'
      else 'unwatched'
    end as state
  from stopped
  left join tapered
    on tapered.patient_id = stopped.patient_id
    and tapered.class = stopped.class
    and tapered.as_of = stopped.as_of
)
select
  judged.patient_id,
  judged.as_of,
  case
    when bool_or(judged.state = 'unwatched') then 'unwatched'
    when bool_or(judged.state = 'waiting') then 'waiting'
    else 'watched'
  end as withdrawal,
  max(judged.untapered_stop_on) as untapered_stop_on
from judged
group by judged.patient_id, judged.as_of
