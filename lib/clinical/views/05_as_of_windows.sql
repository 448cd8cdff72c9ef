-- For each as-of date the day after which each window of the definitions is open (window: day > *_after and day <= as_of).
select
  d.as_of,
  d.month,
  d.is_running,
  months_before(d.as_of, s.panel_visit_months) as panel_visits_after,
  months_before(d.as_of, 12) as year_after,
  months_before(d.as_of, 6) as half_year_after,
  months_before(d.as_of, 3) as quarter_after,
  months_before(d.as_of, s.egfr_window_months) as egfr_after,
  months_before(d.as_of, s.acr_window_months) as urine_after,
  months_before(d.as_of, 24) as slope_after,
  months_before(d.as_of, 36) as confirmation_after,
  d.as_of - s.diet_window_days as diet_after,
  d.as_of - 90 as last_90_days_after,
  d.as_of - s.drugs_overlap_days as overlap_from,
  d.as_of - 28 as ras_starts_through,
  months_before(d.as_of - 28, 12) as ras_starts_after
from as_of_dates as d
cross join settings as s
