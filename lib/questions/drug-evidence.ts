/**
 * The steps of a person's evidence that concern drugs, each with the columns of an evidence fact: what is active, what
 * started, was raised, lowered or stopped, and what was checked after a start. They build on the step `person`.
 */
export const drugEvidence = `classes as (
  select 'drugs' as evidence, 'class' as topic, c.class as word, string_agg(distinct i.ingredient, ', ' order by i.ingredient) as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    max(c.course_started_on) as since, cast(null as date) as day,
    count(distinct o.order_key) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from class_orders as c
  join person on person.patient_id = c.patient_id
    and c.started_on <= person.as_of and (c.ends_on is null or c.ends_on > person.as_of)
  join orders as o on o.order_key = c.order_key
  join order_ingredients as i on i.order_key = c.order_key and i.class is not null
  group by c.class
),
kinds as (
  select 'drugs' as evidence, 'kind' as topic,
    case when i.ingredient = 'finerenone' then 'finerenone' else i.kind end as word,
    string_agg(distinct i.ingredient, ', ' order by i.ingredient) as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    min(coalesce(r.started_on, spans.started_on)) as since, cast(null as date) as day,
    count(distinct o.order_key) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from order_spans as spans
  join person on person.patient_id = spans.patient_id
    and spans.started_on <= person.as_of and (spans.ends_on is null or spans.ends_on > person.as_of)
  join order_ingredients as i
    on i.order_key = spans.order_key
    and (i.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor', 'steroidal_mra', 'sglt2_inhibitor')
      or i.ingredient = 'finerenone')
  join orders as o on o.order_key = spans.order_key
  left join drug_runs as r
    on r.what = 'kind' and r.patient_id = spans.patient_id and r.word = i.kind
    and r.started_on <= person.as_of and (r.ends_on is null or r.ends_on > person.as_of)
  group by case when i.ingredient = 'finerenone' then 'finerenone' else i.kind end
),
stopped as (
  select 'drugs' as evidence, 'ras stopped' as topic, spans.drug as word, spans.stop_reason as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    spans.started_on as since, person.ras_stopped_on as day, 1 as rows,
    ['medications:' || o.import_id || ':' || o.line] as sources,
    row_number() over (order by spans.started_on desc, spans.order_key desc) as place
  from person
  join class_orders as c
    on c.patient_id = person.patient_id and c.kind in ('ace_inhibitor', 'arb') and c.ends_on = person.ras_stopped_on
  join order_spans as spans on spans.order_key = c.order_key and spans.drug = person.ras_stopped_drug
  join orders as o on o.order_key = c.order_key
),
class_starts as (
  select 'drug changes' as evidence, 'class started' as topic, c.class as word, string_agg(distinct o.drug, ', ' order by o.drug) as detail,
    cast(null as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, c.started_on as day, count(distinct o.order_key) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from class_orders as c
  join person on person.patient_id = c.patient_id and c.started_on <= person.as_of and c.started_on > person.quarter_after
  join orders as o on o.order_key = c.order_key
  where c.started_on = c.course_started_on
  group by c.class, c.started_on
),
dose_steps as (
  select
    case when c.change = 'raised' then 'drug changes' else 'drug stops' end as evidence,
    case when c.change = 'raised' then 'dose raised' else 'dose reduced' end as topic,
    c.ingredient as word, min(i.dose_unit) as detail,
    cast(c.dose_before as double) as first, cast(c.dose_after as double) as second, cast(null as varchar) as comparator,
    cast(null as date) as since, c.changed_on as day, count(*) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from dose_changes as c
  join person on person.patient_id = c.patient_id
    and c.changed_on <= person.as_of and c.seen_from <= person.as_of and (c.seen_before is null or c.seen_before > person.as_of)
  join ingredient_orders as i
    on i.patient_id = c.patient_id and i.ingredient = c.ingredient and i.started_on = c.changed_on
  join orders as o on o.order_key = i.order_key
  left join class_stops as s
    on s.patient_id = c.patient_id and s.class = c.class
    and c.changed_on >= s.stopped_on - 30 and c.changed_on < s.stopped_on
    and s.stopped_on <= person.as_of and s.stopped_on > person.as_of - 60
    and (s.next_started_on is null or s.next_started_on > person.as_of)
  where case
    when c.change = 'raised' then c.changed_on > person.quarter_after
    else s.class in ('central_agonist', 'beta_blocker')
  end
  group by c.change, c.ingredient, c.dose_before, c.dose_after, c.changed_on
),
recent_stops as (
  select s.patient_id, s.class, s.stopped_on, s.as_of, s.reading_on
  from recent_stops_at as s
  join person on person.patient_id = s.patient_id and person.as_of = s.as_of
),
judged_stops as (
  select s.*, 'class stopped' as topic from recent_stops as s where s.stopped_on <= s.as_of - 30
  union all
  select s.*, 'withdrawal' from recent_stops as s
  where s.class in ('central_agonist', 'beta_blocker') and s.stopped_on > s.as_of - 60
),
stops as (
  select 'drug stops' as evidence, s.topic, s.class as word, string_agg(distinct o.drug, ', ' order by o.drug) as detail,
    cast(s.reading_on - s.stopped_on as double) as first, cast(null as double) as second, cast(null as varchar) as comparator,
    s.reading_on as since, s.stopped_on as day, count(distinct o.order_key) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from judged_stops as s
  join class_orders as c on c.patient_id = s.patient_id and c.class = s.class and c.ends_on = s.stopped_on
  join orders as o on o.order_key = c.order_key
  group by s.topic, s.class, s.reading_on, s.stopped_on
),
checked_starts as (
  select 'RAS blocker starts' as evidence, 'ras start' as topic, cast(null as varchar) as word,
    string_agg(distinct o.drug, ', ' order by o.drug) as detail,
    cast(r.potassium_on - r.started_on as double) as first, cast(r.creatinine_on - r.started_on as double) as second,
    cast(null as varchar) as comparator, cast(null as date) as since, r.started_on as day, count(distinct o.order_key) as rows,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from ras_starts as r
  join person on person.patient_id = r.patient_id
    and r.started_on > person.ras_starts_after and r.started_on <= person.ras_starts_through
  join class_orders as c
    on c.patient_id = r.patient_id and c.kind in ('ace_inhibitor', 'arb') and c.started_on = r.started_on
  join orders as o on o.order_key = c.order_key
  group by r.started_on, r.potassium_on, r.creatinine_on
)`
