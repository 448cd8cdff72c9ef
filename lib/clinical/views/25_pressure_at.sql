-- The pressure that represents each patient on each as-of date, and the target that goes with its source.
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
office as (
  select o.patient_id, w.as_of, o.day, o.readings, o.systolic, o.diastolic
  from office_occasions as o
  join as_of_windows as w
    on o.day <= w.as_of and o.day > w.pressure_after and (o.next_day is null or o.next_day > w.as_of)
),
ambulatory as (
  select a.patient_id, w.as_of, a.day, a.readings, a.systolic, a.diastolic
  from ambulatory_occasions as a
  join as_of_windows as w
    on a.day <= w.as_of
    and a.day > least(w.pressure_after, w.pressure_fresh_after)
    and (a.next_day is null or a.next_day > w.as_of)
),
home as (
  select h.patient_id, w.as_of, h.day, h.readings, h.systolic, h.diastolic
  from home_ranges as h
  join as_of_windows as w
    on h.day <= w.as_of
    and h.day > least(w.pressure_after, w.pressure_fresh_after)
    and (h.next_day is null or h.next_day > w.as_of)
),
latest as (
  select
    d.patient_id,
    d.as_of,
    w.pressure_after,
    w.pressure_fresh_after,
    office.day as office_on,
    office.readings as office_readings,
    round_half_up(office.systolic) as office_systolic,
    round_half_up(office.diastolic) as office_diastolic,
    home.day as home_on,
    home.readings as home_readings,
    round_half_up(home.systolic) as home_systolic,
    round_half_up(home.diastolic) as home_diastolic,
    ambulatory.day as ambulatory_on,
    ambulatory.readings as ambulatory_readings,
    round_half_up(ambulatory.systolic) as ambulatory_systolic,
    round_half_up(ambulatory.diastolic) as ambulatory_diastolic,
    case
      when home.day is null and ambulatory.day is null then null
      when ambulatory.day is null or home.day > ambulatory.day then 'home'
      else 'ambulatory'
    end as out_of_office_source
  from patient_days as d
  join as_of_windows as w on w.as_of = d.as_of
  left join office on office.patient_id = d.patient_id and office.as_of = d.as_of
  left join home on home.patient_id = d.patient_id and home.as_of = d.as_of
  left join ambulatory on ambulatory.patient_id = d.patient_id and ambulatory.as_of = d.as_of
),
chosen as (
  select
    latest.*,
    case out_of_office_source when 'home' then home_on when 'ambulatory' then ambulatory_on end as out_of_office_on
  from latest
),
sourced as (
  select
    chosen.*,
    case
      when out_of_office_on > pressure_fresh_after
        and not (coalesce(office_on > out_of_office_on, false) and (office_systolic >= 180 or office_diastolic >= 120))
        then out_of_office_source
      when office_on is not null then 'office'
      when out_of_office_on > pressure_after then out_of_office_source
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
  r.as_of,
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
  r.ambulatory_on,
  counted.day as counted_day,
  cast(counted.lowest_systolic as double) as counted_lowest_systolic,
  cast(counted.lowest_diastolic as double) as counted_lowest_diastolic
from represented as r
left join pressure_limits as limits on limits.bp_source = r.bp_source
left join (
  select c.patient_id, w.as_of, c.day, c.lowest_systolic, c.lowest_diastolic
  from counted_days as c
  join as_of_windows as w
    on c.day <= w.as_of and c.day > w.year_after and (c.next_day is null or c.next_day > w.as_of)
) as counted on counted.patient_id = r.patient_id and counted.as_of = r.as_of
