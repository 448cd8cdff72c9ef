-- The pressure that represents each patient on each day asked for, and the target that goes with its source. The latest
-- occasion in and out of the office stands beside it however old it is, so that another window needs no other occasions.
with home_ranges as (
  select
    h.patient_id,
    h.day,
    h.readings,
    h.systolic,
    h.diastolic,
    lead(h.day) over (partition by h.patient_id order by h.day) as next_day
  from home_averages as h
  where h.is_valid
),
occasions as (
  select o.patient_id, d.day, 'office' as source, o.day as occasion_on, o.readings, o.systolic, o.diastolic
  from office_occasions as o
  join pressure_days as d on o.day <= d.day and (o.next_day is null or o.next_day > d.day)
  union all
  select a.patient_id, d.day, 'ambulatory', a.day, a.readings, a.systolic, a.diastolic
  from ambulatory_occasions as a
  join pressure_days as d on a.day <= d.day and (a.next_day is null or a.next_day > d.day)
  union all
  select h.patient_id, d.day, 'home', h.day, h.readings, h.systolic, h.diastolic
  from home_ranges as h
  join pressure_days as d on h.day <= d.day and (h.next_day is null or h.next_day > d.day)
),
-- One occasion of each source a day at most, so that max only picks it.
latest as (
  select
    o.patient_id,
    o.day,
    max(case when o.source = 'office' then o.occasion_on end) as office_on,
    max(case when o.source = 'office' then o.readings end) as office_readings,
    max(case when o.source = 'office' then round_half_up(o.systolic) end) as office_systolic,
    max(case when o.source = 'office' then round_half_up(o.diastolic) end) as office_diastolic,
    max(case when o.source = 'home' then o.occasion_on end) as home_on,
    max(case when o.source = 'home' then o.readings end) as home_readings,
    max(case when o.source = 'home' then round_half_up(o.systolic) end) as home_systolic,
    max(case when o.source = 'home' then round_half_up(o.diastolic) end) as home_diastolic,
    max(case when o.source = 'ambulatory' then o.occasion_on end) as ambulatory_on,
    max(case when o.source = 'ambulatory' then o.readings end) as ambulatory_readings,
    max(case when o.source = 'ambulatory' then round_half_up(o.systolic) end) as ambulatory_systolic,
    max(case when o.source = 'ambulatory' then round_half_up(o.diastolic) end) as ambulatory_diastolic
  from occasions as o
  group by o.patient_id, o.day
),
outside as (
  select
    latest.*,
    coalesce(latest.office_systolic >= 180 or latest.office_diastolic >= 120, false) as is_office_severe,
    case
      when latest.home_on is null and latest.ambulatory_on is null then null
      when latest.ambulatory_on is null or latest.home_on > latest.ambulatory_on then 'home'
      else 'ambulatory'
    end as out_of_office_source
  from latest
),
chosen as (
  select
    outside.*,
    case out_of_office_source when 'home' then home_on when 'ambulatory' then ambulatory_on end as out_of_office_on,
    case out_of_office_source when 'home' then home_systolic when 'ambulatory' then ambulatory_systolic end
      as out_of_office_systolic,
    case out_of_office_source when 'home' then home_diastolic when 'ambulatory' then ambulatory_diastolic end
      as out_of_office_diastolic,
    case out_of_office_source when 'home' then home_readings when 'ambulatory' then ambulatory_readings end
      as out_of_office_readings
  from outside
),
sourced as (
  select
    chosen.*,
    chosen.office_on > d.pressure_after as is_office_in_window,
    chosen.home_on > least(d.pressure_after, d.pressure_fresh_after) as is_home_in_window,
    chosen.ambulatory_on > least(d.pressure_after, d.pressure_fresh_after) as is_ambulatory_in_window,
    speaks_out_of_office(
      chosen.office_on,
      chosen.is_office_severe,
      chosen.out_of_office_on,
      d.pressure_after,
      d.pressure_fresh_after) as is_out_of_office
  from chosen
  join pressure_days as d on d.day = chosen.day
),
represented as (
  select
    sourced.*,
    case when is_out_of_office then out_of_office_source when not is_out_of_office then 'office' end as bp_source,
    case when is_out_of_office then out_of_office_systolic when not is_out_of_office then office_systolic end as systolic,
    case when is_out_of_office then out_of_office_diastolic when not is_out_of_office then office_diastolic end as diastolic,
    case when is_out_of_office then out_of_office_on when not is_out_of_office then office_on end as bp_on,
    case when is_out_of_office then out_of_office_readings when not is_out_of_office then office_readings end as bp_readings
  from sourced
)
select
  r.patient_id,
  r.day,
  cast(r.systolic as integer) as systolic,
  cast(r.diastolic as integer) as diastolic,
  r.bp_source,
  r.bp_on,
  r.bp_readings,
  pressure_category(r.systolic, r.diastolic) as category,
  limits.systolic_limit,
  limits.diastolic_limit,
  r.systolic < limits.systolic_limit and r.diastolic < limits.diastolic_limit as at_target,
  cast(case when r.is_office_in_window then r.office_systolic end as integer) as office_systolic,
  cast(case when r.is_office_in_window then r.office_diastolic end as integer) as office_diastolic,
  case when r.is_office_in_window then r.office_on end as office_on,
  cast(case when r.is_home_in_window then r.home_systolic end as integer) as home_systolic,
  cast(case when r.is_home_in_window then r.home_diastolic end as integer) as home_diastolic,
  case when r.is_home_in_window then r.home_on end as home_on,
  cast(case when r.is_ambulatory_in_window then r.ambulatory_systolic end as integer) as ambulatory_systolic,
  cast(case when r.is_ambulatory_in_window then r.ambulatory_diastolic end as integer) as ambulatory_diastolic,
  case when r.is_ambulatory_in_window then r.ambulatory_on end as ambulatory_on,
  r.office_on as last_office_on,
  cast(r.office_systolic as smallint) as last_office_systolic,
  cast(r.office_diastolic as smallint) as last_office_diastolic,
  r.is_office_severe as is_last_office_severe,
  r.out_of_office_on as last_out_of_office_on,
  cast(r.out_of_office_systolic as smallint) as last_out_of_office_systolic,
  cast(r.out_of_office_diastolic as smallint) as last_out_of_office_diastolic,
  r.out_of_office_source as last_out_of_office_source
from represented as r
left join pressure_limits as limits on limits.bp_source = r.bp_source
