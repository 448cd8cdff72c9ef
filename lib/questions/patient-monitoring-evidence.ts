import { EvidenceFact, factColumns } from "./evidence-fact"

/** The facts behind the measures of tests, decline, risk, home readings, diet and the dietitian, for one person on one day. */
export const patientMonitoringEvidence = {
  sql: `with person as materialized (
  select
    p.patient_id, p.as_of, p.egfr_tested_on, p.egfr_days_in_year, risk_cell(p.g, p.a) as risk_cell, p.g, p.a, p.tests_due, p.acr_last_on, p.urine_on,
    p.slope, p.slope_standard_error, p.slope_points, p.slope_from, p.slope_to,
    p.egfr_on, p.risk_acr, p.risk_acr_on, p.failure_risk_2_years, p.failure_risk_5_years,
    p.home_average_on, p.sodium_mg, p.sodium_in_year_mg, p.sodium_in_year_series, p.sodium_in_year_on, p.diet_last_on,
    p.dietitian_seen_on, w.year_after, case when p.sodium_mg is null then w.year_after else w.diet_after end as sodium_after
  from people
  join as_of_windows as w on w.as_of = cast($as_of as date)
  join patient_values as p on p.patient_id = people.patient_id and p.as_of = w.as_of
  where people.public_id = cast($public_id as varchar)
),
filtration as materialized (
  select f.day, 'labs:' || f.import_id || ':' || f.line as source
  from filtration_results as f
  join person on person.patient_id = f.patient_id and f.day <= person.as_of
  where f.is_usable
),
ratios as materialized (
  select
    u.day, u.value_mg_g, u.comparator, u.a, u.value_text, u.unit_text,
    'labs:' || u.import_id || ':' || u.line as source,
    row_number() over (partition by u.day order by u.collected_epoch desc, u.value_mg_g desc, u.import_id, u.line) as place,
    row_number() over (
      partition by u.day, u.value_mg_g > 0 order by u.collected_epoch desc, u.value_mg_g desc, u.import_id, u.line
    ) as place_above_0
  from urine_results as u
  join person on person.patient_id = u.patient_id and u.day <= person.as_of
  where u.test = 'uacr'
),
egfr_tests as (
  select 'kidney tests' as evidence, 'egfr tests' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, person.egfr_tested_on as day, person.egfr_days_in_year as rows,
    list(filtration.source order by filtration.day desc, filtration.source) as sources
  from person
  join egfr_test_days as t on t.patient_id = person.patient_id
    and t.day <= person.as_of and (t.day > person.year_after or t.day = person.egfr_tested_on)
  join filtration on filtration.day = t.day
  group by person.egfr_tested_on, person.egfr_days_in_year
),
stage_rows as (
  select filtration.source
  from filtration
  join person on person.egfr_on = filtration.day
  union all
  select 'labs:' || u.import_id || ':' || u.line
  from urine_results as u
  join person on person.patient_id = u.patient_id and person.urine_on = u.day
),
tests_due as (
  select 'kidney tests' as evidence, 'tests due' as topic, person.g || ' ' || person.a as word, person.risk_cell as detail,
    cast(person.tests_due as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, cast(null as date) as day, 1 as rows,
    coalesce((select list(s.source order by s.source) from stage_rows as s), []) as sources
  from person
  where person.tests_due is not null
),
acr_test as (
  select 'kidney tests' as evidence, 'acr test' as topic, 'uacr' as word,
    r.a || ', reported as ' || r.value_text || coalesce(' ' || r.unit_text, '') as detail,
    r.value_mg_g as first, cast(null as double) as second, r.comparator, cast(null as date) as since, r.day,
    1 as rows, [r.source] as sources
  from ratios as r
  join person on r.day = person.acr_last_on
  where r.place = 1
),
slope as (
  select 'slope' as evidence, 'slope' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    person.slope as first, person.slope_standard_error as second, cast(null as varchar) as comparator,
    person.slope_from as since, person.slope_to as day, person.slope_points as rows,
    list(filtration.source order by filtration.day, filtration.source) as sources
  from person
  join egfr_days as e on e.patient_id = person.patient_id and e.day >= person.slope_from and e.day <= person.slope_to
  join filtration on filtration.day = e.day
  where person.slope is not null
  group by person.slope, person.slope_standard_error, person.slope_from, person.slope_to, person.slope_points
),
failure_risk as (
  select 'failure risk' as evidence, 'failure risk' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    person.failure_risk_2_years as first, person.failure_risk_5_years as second, cast(null as varchar) as comparator,
    cast(null as date) as since, person.egfr_on as day, 1 as rows,
    list(filtration.source order by filtration.source) as sources
  from person
  join filtration on filtration.day = person.egfr_on
  where person.failure_risk_2_years is not null
  group by person.failure_risk_2_years, person.failure_risk_5_years, person.egfr_on
),
risk_acr as (
  select 'failure risk' as evidence, 'risk acr' as topic, 'uacr' as word,
    r.a || ', reported as ' || r.value_text || coalesce(' ' || r.unit_text, '') as detail,
    r.value_mg_g as first, cast(null as double) as second, r.comparator, cast(null as date) as since, r.day,
    1 as rows, [r.source] as sources
  from ratios as r
  join person on r.day = person.risk_acr_on
  where r.value_mg_g > 0 and r.place_above_0 = 1
),
home_average as (
  select 'home' as evidence, 'home average' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    round_half_up(h.systolic) as first, round_half_up(h.diastolic) as second, cast(null as varchar) as comparator,
    min(r.day) as since, h.day, h.readings as rows,
    list('readings:' || r.import_id || ':' || r.line order by r.taken_at, r.line) as sources
  from person
  join home_averages as h on h.patient_id = person.patient_id and h.day = person.home_average_on
  join bp_readings as r on r.patient_id = person.patient_id and r.setting = 'home'
    and r.day <= h.day and r.day > h.day - cast($home_window_days as integer)
  group by h.systolic, h.diastolic, h.day, h.readings
),
diet_mean as (
  select 'diet' as evidence, 'diet mean' as topic, person.sodium_in_year_series as word, cast(null as varchar) as detail,
    person.sodium_in_year_mg as first, cast(null as double) as second, cast(null as varchar) as comparator,
    min(r.day) as since, person.sodium_in_year_on as day, count(*) as rows,
    list(r.file || ':' || r.import_id || ':' || r.line order by r.day, r.line) as sources
  from person
  join sodium_records as r on r.patient_id = person.patient_id and r.series = person.sodium_in_year_series
    and r.day <= person.as_of and r.day > person.sodium_after
  group by person.sodium_in_year_series, person.sodium_in_year_mg, person.sodium_in_year_on
),
last_diet_record as (
  select 'diet' as evidence, 'last diet record' as topic, r.series as word, cast(null as varchar) as detail,
    cast(r.sodium_mg as double) as first, cast(null as double) as second, r.comparator,
    cast(null as date) as since, r.day, 1 as rows, [r.file || ':' || r.import_id || ':' || r.line] as sources
  from person
  join sodium_records as r on r.patient_id = person.patient_id and r.day = person.diet_last_on
  where person.sodium_in_year_mg is null
),
dietitian_visit as (
  select 'dietitian' as evidence, 'dietitian visit' as topic, cast(null as varchar) as word, v.dietitian_name as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, v.started_on as day, 1 as rows, ['visits:' || v.import_id || ':' || v.line] as sources
  from person
  join dietitian_visits as v on v.patient_id = person.patient_id and v.started_on = person.dietitian_seen_on
),
facts as (
  ${[
    ...["egfr_tests", "tests_due", "acr_test", "slope", "failure_risk", "risk_acr"],
    ...["home_average", "diet_mean", "last_diet_record", "dietitian_visit"],
  ]
    .map((name) => `select ${factColumns("f")} from ${name} as f`)
    .join("\n  union all\n  ")}
)
select evidence, topic, word, detail, first, second, comparator, since, day, cast(rows as integer) as rows, sources
from facts
order by evidence, topic, day desc nulls last, detail, sources`,
  Row: EvidenceFact,
} as const
