-- The starts of an ACE inhibitor or ARB whose 28 days are over, in the year before them: whether every one was checked,
-- and the days the slowest took.
select
  r.patient_id,
  w.as_of,
  bool_and(r.potassium_on is not null and r.creatinine_on is not null) as are_ras_starts_checked,
  case
    when bool_and(r.potassium_on is not null and r.creatinine_on is not null) then cast(max(r.checked_days) as integer)
  end as ras_start_checked_days
from ras_starts as r
join as_of_windows as w on r.started_on > w.ras_starts_after and r.started_on <= w.ras_starts_through
group by r.patient_id, w.as_of
