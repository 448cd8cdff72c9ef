-- The target by source. Published equivalents of the office pair (130/80, 140/90, 120/80); the clinic's own pair where it
-- gave one; otherwise the office numbers serve for all.
-- source: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 11, doi:10.1161/HYP.0000000000000065
with equivalents (office_systolic, office_diastolic, home_systolic, home_diastolic, ambulatory_systolic, ambulatory_diastolic) as (
  values (130, 80, 130, 80, 125, 75), (140, 90, 135, 85, 130, 80), (120, 80, 120, 80, 115, 75)
),
chosen as (
  select
    s.bp_systolic_target,
    s.bp_diastolic_target,
    coalesce(s.bp_home_systolic_target, e.home_systolic, s.bp_systolic_target) as home_systolic,
    coalesce(s.bp_home_diastolic_target, e.home_diastolic, s.bp_diastolic_target) as home_diastolic,
    coalesce(s.bp_ambulatory_systolic_target, e.ambulatory_systolic, s.bp_systolic_target) as ambulatory_systolic,
    coalesce(s.bp_ambulatory_diastolic_target, e.ambulatory_diastolic, s.bp_diastolic_target) as ambulatory_diastolic
  from settings as s
  left join equivalents as e
    on e.office_systolic = s.bp_systolic_target and e.office_diastolic = s.bp_diastolic_target
)
select 'office' as bp_source, bp_systolic_target as systolic_limit, bp_diastolic_target as diastolic_limit from chosen
union all
select 'home', home_systolic, home_diastolic from chosen
union all
select 'ambulatory', ambulatory_systolic, ambulatory_diastolic from chosen
