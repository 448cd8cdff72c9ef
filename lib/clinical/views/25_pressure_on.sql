-- The pressure that represents each patient on each day asked for, and the target that goes with its source.
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
  join pressure_days as d
    on o.day <= d.day and o.day > d.pressure_after and (o.next_day is null or o.next_day > d.day)
  union all
  select a.patient_id, d.day, 'ambulatory', a.day, a.readings, a.systolic, a.diastolic
  from ambulatory_occasions as a
  join pressure_days as d
    on a.day <= d.day
    and a.day > least(d.pressure_after, d.pressure_fresh_after)
    and (a.next_day is null or a.next_day > d.day)
  union all
  select h.patient_id, d.day, 'home', h.day, h.readings, h.systolic, h.diastolic
  from home_ranges as h
  join pressure_days as d
    on h.day <= d.day
    and h.day > least(d.pressure_after, d.pressure_fresh_after)
    and (h.next_day is null or h.next_day > d.day)
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
    d.pressure_after,
    d.pressure_fresh_after,
    case
      when latest.home_on is null and latest.ambulatory_on is null then null
      when latest.ambulatory_on is null or latest.home_on > latest.ambulatory_on then 'home'
      else 'ambulatory'
    end as out_of_office_source
  from latest
  join pressure_days as d on d.day = latest.day
),
chosen as (
  select
    outside.*,
    case out_of_office_source when 'home' then home_on when 'ambulatory' then ambulatory_on end as out_of_office_on
  from outside
),
-- One out of office that is neither fresh nor in the window is not among the occasions; without an office day the last branch
-- answers as the first would.
sourced as (
  select
    chosen.*,
    case
      when out_of_office_on > pressure_fresh_after
        and not (office_on > out_of_office_on and (office_systolic >= 180 or office_diastolic >= 120))
        then out_of_office_source
      when office_on is not null then 'office'
      else out_of_office_source
    end as bp_source
  from chosen
),
represented as (
  select
    sourced.*,
    case bp_source when 'office' then office_systolic when 'home' then home_systolic else ambulatory_systolic end as systolic,
    case bp_source when 'office' then office_diastolic when 'home' then home_diastolic else ambulatory_diastolic end as diastolic,
    case bp_source when 'office' then office_on when 'home' then home_on else ambulatory_on end as bp_on,
    case bp_source when 'office' then office_readings when 'home' then home_readings else ambulatory_readings end as bp_readings
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
  cast(r.office_systolic as integer) as office_systolic,
  cast(r.office_diastolic as integer) as office_diastolic,
  r.office_on,
  cast(r.home_systolic as integer) as home_systolic,
  cast(r.home_diastolic as integer) as home_diastolic,
  r.home_on,
  cast(r.ambulatory_systolic as integer) as ambulatory_systolic,
  cast(r.ambulatory_diastolic as integer) as ambulatory_diastolic,
  r.ambulatory_on
from represented as r
left join pressure_limits as limits on limits.bp_source = r.bp_source
