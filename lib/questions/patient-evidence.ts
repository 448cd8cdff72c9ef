import { drugEvidence } from "./drug-evidence"
import { EvidenceFact, factColumns } from "./evidence-fact"
import { pressureEvidence } from "./pressure-evidence"

/** The facts that stand behind the conditions of the measures for one person on one day, each with its source rows. */
export const patientEvidence = {
  sql: `with person as materialized (
  select
    p.patient_id, p.as_of, p.age_years, people.sex, people.birth_date,
    p.systolic, p.diastolic, p.bp_source, p.bp_on,
    p.counted_day, p.counted_lowest_systolic, p.counted_lowest_diastolic,
    p.egfr, p.egfr_on, p.egfr_run_started_on, p.g, p.urine_last_on, p.albuminuria, p.potassium_on,
    p.ras_stopped_drug, p.ras_stopped_on,
    p.quarter_ago_systolic, p.quarter_ago_diastolic, p.quarter_ago_bp_source, p.quarter_ago_bp_on,
    w.ras_starts_after, w.ras_starts_through,
    people.import_id, people.line, w.quarter_after
  from people
  join as_of_windows as w on w.as_of = cast($as_of as date)
  join patient_values as p on p.patient_id = people.patient_id and p.as_of = w.as_of
  where people.public_id = cast($public_id as varchar)
),
${pressureEvidence},
filtration as materialized (
  select e.day, e.egfr, 'labs:' || f.import_id || ':' || f.line as source
  from egfr_days as e
  join person on person.patient_id = e.patient_id and e.day in (person.egfr_on, person.egfr_run_started_on)
  join filtration_results as f
    on f.patient_id = e.patient_id and f.day = e.day and f.is_usable
    and f.test = case when e.source = 'reported' then 'egfr' else 'creatinine' end
),
egfr as (
  select 'kidney' as evidence,
    case when filtration.day = person.egfr_on then 'egfr' else 'egfr run' end as topic,
    person.g as word, cast(null as varchar) as detail,
    cast(filtration.egfr as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    case when person.egfr < 60 then person.egfr_run_started_on end as since, filtration.day,
    count(*) as rows, list(filtration.source order by filtration.source) as sources
  from filtration
  cross join person
  group by filtration.day, filtration.egfr, person.egfr_on, person.g, person.egfr, person.egfr_run_started_on
),
urine_days as materialized (
  select u.day, u.test, u.value_mg_g, u.comparator, u.value_text, u.unit_text, u.a, u.confirmed_by_day,
    'labs:' || u.import_id || ':' || u.line as source,
    row_number() over (
      partition by u.day order by case when u.test = 'uacr' then 0 else 1 end, u.collected_at desc, u.value_mg_g desc
    ) as place
  from urine_results as u
  join person on person.patient_id = u.patient_id and u.day <= person.as_of
),
latest_urine as (
  select u.* from urine_days as u join person on u.day = person.urine_last_on where u.place = 1
),
urine as (
  select 'urine' as evidence, 'urine' as topic, u.test as word,
    u.a || ', reported as ' || u.value_text || coalesce(' ' || u.unit_text, '') as detail,
    u.value_mg_g as first, cast(null as double) as second, u.comparator, cast(null as date) as since, u.day,
    1 as rows, [u.source] as sources
  from latest_urine as u
  union all
  select 'urine', 'confirming urine', u.test, u.a || ', reported as ' || u.value_text || coalesce(' ' || u.unit_text, ''),
    u.value_mg_g, null, u.comparator, null, u.day, 1, [u.source]
  from urine_days as u
  join latest_urine on latest_urine.confirmed_by_day = u.day
  join person on person.albuminuria = 'confirmed'
  where u.a in ('A2', 'A3')
),
${drugEvidence},
potassium as (
  select 'potassium' as evidence, 'potassium' as topic, cast(null as varchar) as word,
    k.value_text || coalesce(' ' || k.unit_text, '') as detail, k.potassium as first, cast(null as double) as second,
    k.comparator, cast(null as date) as since, k.day, 1 as rows, ['labs:' || k.import_id || ':' || k.line] as sources,
    row_number() over (order by k.collected_at desc, k.potassium desc, k.import_id, k.line) as place
  from potassium_results as k
  join person on person.patient_id = k.patient_id and k.day = person.potassium_on and not k.is_haemolysed
),
problems as (
  select case when c.condition = 'dialysis' then 'dialysis' else 'problems' end as evidence, 'problem' as topic,
    c.condition as word,
    case when c.is_onset_unknown then 'onset not known: ' else '' end
      || c.code || coalesce(', ' || c.description, '') as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    c.starts_on as since, cast(null as date) as day, 1 as rows, ['problems:' || c.import_id || ':' || c.line] as sources
  from condition_spans as c
  join person on person.patient_id = c.patient_id
    and c.starts_on <= person.as_of and (c.ends_on is null or c.ends_on > person.as_of)
),
dialysis_visits as (
  select 'dialysis' as evidence, 'dialysis visit' as topic, cast(null as varchar) as word, cast(null as varchar) as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    min(v.started_on) as since, max(v.started_on) as day, count(*) as rows,
    list('visits:' || v.import_id || ':' || v.line order by v.started_on desc, v.line) as sources
  from visits_raw as v
  join person on person.patient_id = v.patient_id
    and v.kind = 'dialysis' and v.started_on <= person.as_of and v.started_on > person.quarter_after
  having count(*) > 0
),
allergies as (
  select 'allergies' as evidence, 'allergy' as topic, r.kind as word,
    r.substance || coalesce(': ' || r.reaction, '') as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    r.starts_on as since, cast(null as date) as day, 1 as rows, ['allergies:' || r.import_id || ':' || r.line] as sources
  from ras_intolerance as r
  join person on person.patient_id = r.patient_id and r.starts_on <= person.as_of
),
decisions_made as (
  select 'decisions' as evidence, 'decision' as topic, d.topic as word, d.kind as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    d.made_on as since, d.holds_until as day, 1 as rows, cast([] as varchar[]) as sources
  from decision_spans as d
  join person
    on person.patient_id = d.patient_id
    and d.made_on <= person.as_of
    and person.as_of < d.holds_until
    and (d.undone_on is null or d.undone_on > person.as_of)
),
age as (
  select 'person' as evidence, 'age' as topic, person.sex as word, cast(null as varchar) as detail,
    cast(person.age_years as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    person.birth_date as since, cast(null as date) as day, 1 as rows,
    ['patients:' || person.import_id || ':' || person.line] as sources
  from person
),
facts as (
  ${[
    ...["representative", "counted_day", "egfr", "urine", "problems"],
    ...["classes", "kinds", "class_starts", "dose_steps", "stops", "checked_starts"],
    ...["dialysis_visits", "allergies", "decisions_made", "age"],
  ]
    .map((name) => `select ${factColumns("f")} from ${name} as f`)
    .concat(
      ["latest_counted", "stopped", "potassium"].map(
        (name) => `select ${factColumns("f")} from ${name} as f where f.place = 1`,
      ),
    )
    .join("\n  union all\n  ")}
)
select evidence, topic, word, detail, first, second, comparator, since, day, cast(rows as integer) as rows, sources
from facts
order by evidence, case when topic in ('confirming urine', 'egfr run') then 1 else 0 end, topic, since desc nulls last, day desc nulls last, word, detail, sources`,
  Row: EvidenceFact,
} as const
