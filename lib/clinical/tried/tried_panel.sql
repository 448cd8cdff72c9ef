-- What settings are tried on, with the panel of the tried window.
-- `replace` is a construct of this engine: every other column stays as stored, whichever there are.
select
  v.* replace (v.last_visit_on > w.panel_visits_after as in_panel),
  (v.last_visit_on > w.panel_visits_after) <> v.was_in_panel as is_other_panel
from tried_rows as v
join as_of_windows as w on w.as_of = v.as_of
