-- The same, with the mean sodium of the tried window, or of the last 12 months where no record lies in it.
-- `replace` is a construct of this engine: every other column stays as stored, whichever there are. Lists are one, too.
with counted as (
  select
    v.*,
    len(list_filter(v.sodium_days, lambda days: days < s.diet_window_days)) as recent_records
  from tried_panel as v
  cross join settings as s
)
select
  v.* replace (
    v.sodium_means[case when v.recent_records > 0 then v.recent_records else len(v.sodium_means) end] as sodium_in_year_mg
  )
from counted as v
