-- The target by source: the clinic's own pair where it gave one, else the published equivalent of the office pair; where none
-- is published the office numbers serve for all. `limit_basis` says which of the three it was.
select
  'office' as bp_source,
  s.bp_systolic_target as systolic_limit,
  s.bp_diastolic_target as diastolic_limit,
  'clinic' as limit_basis
from settings as s
union all
select
  'home',
  coalesce(
    s.bp_home_systolic_target,
    equivalent_systolic(s.bp_systolic_target, s.bp_diastolic_target, 'home'),
    s.bp_systolic_target),
  coalesce(
    s.bp_home_diastolic_target,
    equivalent_diastolic(s.bp_systolic_target, s.bp_diastolic_target, 'home'),
    s.bp_diastolic_target),
  case
    when s.bp_home_systolic_target is not null then 'clinic'
    when equivalent_systolic(s.bp_systolic_target, s.bp_diastolic_target, 'home') is not null then 'published'
    else 'office'
  end
from settings as s
union all
select
  'ambulatory',
  coalesce(
    s.bp_ambulatory_systolic_target,
    equivalent_systolic(s.bp_systolic_target, s.bp_diastolic_target, 'ambulatory'),
    s.bp_systolic_target),
  coalesce(
    s.bp_ambulatory_diastolic_target,
    equivalent_diastolic(s.bp_systolic_target, s.bp_diastolic_target, 'ambulatory'),
    s.bp_diastolic_target),
  case
    when s.bp_ambulatory_systolic_target is not null then 'clinic'
    when equivalent_systolic(s.bp_systolic_target, s.bp_diastolic_target, 'ambulatory') is not null then 'published'
    else 'office'
  end
from settings as s
