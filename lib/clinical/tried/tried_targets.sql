-- The same, with the pressures held against the tried targets.
with limits as (
  select
    max(case when l.bp_source = 'office' then l.systolic_limit end) as office_systolic,
    max(case when l.bp_source = 'office' then l.diastolic_limit end) as office_diastolic,
    max(case when l.bp_source = 'home' then l.systolic_limit end) as home_systolic,
    max(case when l.bp_source = 'home' then l.diastolic_limit end) as home_diastolic,
    max(case when l.bp_source = 'ambulatory' then l.systolic_limit end) as ambulatory_systolic,
    max(case when l.bp_source = 'ambulatory' then l.diastolic_limit end) as ambulatory_diastolic
  from pressure_limits as l
)
select
  v.*,
  case v.bp_source
    when 'office' then v.systolic < l.office_systolic and v.diastolic < l.office_diastolic
    when 'home' then v.systolic < l.home_systolic and v.diastolic < l.home_diastolic
    when 'ambulatory' then v.systolic < l.ambulatory_systolic and v.diastolic < l.ambulatory_diastolic
  end as at_target,
  case v.quarter_ago_bp_source
    when 'office' then v.quarter_ago_systolic < l.office_systolic and v.quarter_ago_diastolic < l.office_diastolic
    when 'home' then v.quarter_ago_systolic < l.home_systolic and v.quarter_ago_diastolic < l.home_diastolic
    when 'ambulatory'
      then v.quarter_ago_systolic < l.ambulatory_systolic and v.quarter_ago_diastolic < l.ambulatory_diastolic
  end as quarter_ago_at_target,
  coalesce(v.systolic < s.bp_low_systolic and v.bp_on > w.last_90_days_after, false) as is_pressure_low_lately
from tried_pressures as v
join as_of_windows as w on w.as_of = v.as_of
cross join settings as s
cross join limits as l
