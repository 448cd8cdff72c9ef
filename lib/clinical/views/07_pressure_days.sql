-- The days on which a representative pressure is asked for: each as-of date and the day three months before it, with the
-- days after which the windows of the pressure are open.
with days as (
  select w.as_of as day from as_of_windows as w
  union
  select w.quarter_after from as_of_windows as w
)
select
  days.day,
  months_before(days.day, s.bp_window_months) as pressure_after,
  days.day - s.bp_fresh_days as pressure_fresh_after
from days
cross join settings as s
