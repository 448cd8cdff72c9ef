/**
 * The steps of a person's evidence that concern pressure, each with the columns of an evidence fact: the pressure that
 * represents them, the one three months before, and the counted readings. They build on the step `person` and ask for
 * `$home_window_days`, since a closed month stands by the window of then.
 */
export const pressureEvidence = `readings as materialized (
  select r.setting, r.is_counted, r.day, r.taken_at, r.systolic, r.diastolic,
    'readings:' || r.import_id || ':' || r.line as source
  from bp_readings as r
  join person on person.patient_id = r.patient_id and r.day <= person.as_of
),
represented as (
  select 'pressure' as evidence, 'representative' as topic, p.bp_source, p.systolic, p.diastolic, p.bp_on
  from person as p
  union all
  select 'earlier pressure', 'earlier pressure', p.quarter_ago_bp_source, p.quarter_ago_systolic, p.quarter_ago_diastolic,
    p.quarter_ago_bp_on
  from person as p
),
representative as (
  select p.evidence, p.topic, p.bp_source as word, cast(null as varchar) as detail,
    cast(p.systolic as double) as first, cast(p.diastolic as double) as second,
    cast(null as varchar) as comparator, min(r.day) as since, p.bp_on as day,
    count(*) as rows, list(r.source order by r.taken_at, r.source) as sources
  from represented as p
  join readings as r
    on r.setting = p.bp_source and r.day <= p.bp_on
    and r.day > case when p.bp_source = 'home' then p.bp_on - cast($home_window_days as integer) else p.bp_on - 1 end
  group by p.evidence, p.topic, p.bp_source, p.systolic, p.diastolic, p.bp_on
),
latest_counted as (
  select 'pressure' as evidence, 'latest counted' as topic, r.setting as word, cast(null as varchar) as detail,
    cast(r.systolic as double) as first, cast(r.diastolic as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, r.day, 1 as rows, [r.source] as sources,
    row_number() over (order by r.taken_at desc, r.systolic desc, r.source) as place
  from readings as r
  join person on person.systolic is null
  where r.is_counted
),
counted_day as (
  select 'counted day' as evidence, 'counted day' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    person.counted_lowest_systolic as first, person.counted_lowest_diastolic as second,
    cast(null as varchar) as comparator, cast(null as date) as since, person.counted_day as day,
    count(*) as rows, list(r.source order by r.taken_at, r.source) as sources
  from person
  join readings as r on r.is_counted and r.day = person.counted_day
  group by person.counted_lowest_systolic, person.counted_lowest_diastolic, person.counted_day
)`
