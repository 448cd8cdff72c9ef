-- Clonidine-like drugs and beta blockers stopped in the 60 days up to each as-of date and not active on it:
-- 'unwatched' without a dose reduction in the 30 days before the stop and without a counted reading in the 14 days after,
-- 'waiting' while those 14 days are not over, else 'watched'. Of two classes the worse speaks.
-- `untapered_stop_on`: the latest day on which one of them stopped without a dose reduction before, measured since or not.
with judged as (
  select
    s.patient_id,
    s.as_of,
    case when not s.is_tapered then s.stopped_on end as untapered_stop_on,
    case
      when s.is_tapered then 'watched'
      when s.reading_on <= s.stopped_on + 14 then 'watched'
      when s.as_of < s.stopped_on + 14 then 'waiting'
      else 'unwatched'
    end as state
  from recent_stops_at as s
  where s.class in ('central_agonist', 'beta_blocker')
    and s.stopped_on > s.as_of - 60
    and (s.next_started_on is null or s.next_started_on > s.as_of)
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
