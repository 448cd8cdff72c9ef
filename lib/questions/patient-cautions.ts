import { z } from "zod"
import { cautionIds, cautionsSql } from "../measures/cautions"

const text = z.string().nullable()

export const PatientCaution = z.object({
  caution: z.enum([
    ...cautionIds,
    ...(["severe pressure", "high potassium", "potassium in the diet", "stopped with albuminuria"] as const),
    ...([
      "raised once",
      "single reading",
      "newer haemolysed",
      "unread drug",
      "sex unknown",
      "merged",
    ] as const),
  ]),
  word: text,
  number: z.number().nullable(),
  comparator: text,
  day: text,
  sources: z.array(z.string()),
})

export type PatientCaution = z.infer<typeof PatientCaution>

/** What a reader of this person's values should know on one day; most pressing first. */
export const patientCautions = {
  sql: `with person as materialized (
  select
    p.patient_id, p.as_of, p.systolic, p.diastolic, p.category, p.bp_source, p.bp_on, p.bp_readings, p.newest_class_on,
    p.is_potassium_high_lately, p.has_potassium_diet_flag, p.untapered_stop_on, p.potassium, p.potassium_comparator, p.potassium_on,
    p.albuminuria, p.urine_on, p.ras_history, p.ras_stopped_drug, p.ras_stopped_on, p.ras_stop_reason,
    people.sex, people.has_merged_records, people.import_id, people.line,
    ${cautionsSql()} as held
  from patient_month as p
  join people on people.patient_id = p.patient_id
  where p.public_id = cast($public_id as varchar) and p.as_of = cast($as_of as date)
),
active_orders as (
  select o.order_key, o.drug, o.code_system, o.code, spans.started_on,
    'medications:' || o.import_id || ':' || o.line as source
  from order_spans as spans
  join person on person.patient_id = spans.patient_id
    and spans.started_on <= person.as_of and (spans.ends_on is null or spans.ends_on > person.as_of)
  join orders as o on o.order_key = spans.order_key
),
ras_orders as (
  select
    string_agg(distinct o.drug, ', ' order by o.drug) as drugs,
    max(o.started_on) as day, list(distinct o.source) as sources
  from active_orders as o
  join person on true
  join class_orders as c
    on c.patient_id = person.patient_id and c.order_key = o.order_key and c.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor')
),
against_ras as (
  select 'problems:' || c.import_id || ':' || c.line as source
  from condition_spans as c
  join person on person.patient_id = c.patient_id and c.condition = 'pregnancy'
    and c.starts_on <= person.as_of and (c.ends_on is null or c.ends_on > person.as_of)
  union all
  select distinct 'allergies:' || r.import_id || ':' || r.line
  from ras_intolerance as r
  join person on person.patient_id = r.patient_id and r.is_angioedema and r.starts_on <= person.as_of
),
interfering as (
  select string_agg(distinct o.drug, ', ' order by o.drug) as drugs, list(distinct o.source) as sources
  from active_orders as o
  join order_ingredients as i on i.order_key = o.order_key
  join drug_ingredients as listed on listed.ingredient = i.ingredient and listed.interferes = 'yes'
),
stopped as (
  select string_agg(distinct spans.drug, ', ' order by spans.drug) as drugs,
    list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from person
  join class_orders as c
    on c.patient_id = person.patient_id and c.class in ('central_agonist', 'beta_blocker')
    and c.ends_on = person.untapered_stop_on
  join order_spans as spans on spans.order_key = c.order_key
  join orders as o on o.order_key = c.order_key
),
rises as (
  select
    after.value_text || coalesce(' ' || after.unit_text, '') || ', from ' || before.value_text
      || coalesce(' ' || before.unit_text, '') as words,
    r.day,
    ['labs:' || r.import_id || ':' || r.line, 'labs:' || r.baseline_import_id || ':' || r.baseline_line] as sources,
    row_number() over (order by r.started_on desc, r.value desc, r.day desc, r.import_id, r.line) as place
  from ras_creatinine_rises as r
  join person on person.patient_id = r.patient_id and r.day <= person.as_of and r.started_on > person.as_of - 90
  join filtration_results as after on after.import_id = r.import_id and after.line = r.line
  join filtration_results as before on before.import_id = r.baseline_import_id and before.line = r.baseline_line
),
unread as (
  select string_agg(distinct o.drug, ', ' order by o.drug) as drugs, list(distinct o.source) as sources
  from active_orders as o
  join drug_texts as t
    on t.text = o.drug and t.code_system is not distinct from o.code_system and t.code is not distinct from o.code
    and t.status in ('unmapped', 'part not recognised', 'disagrees')
  having count(*) > 0
),
haemolysed as (
  select k.potassium, k.comparator, k.day, 'labs:' || k.import_id || ':' || k.line as source,
    row_number() over (order by k.collected_at desc, k.import_id, k.line) as place
  from potassium_results as k
  join person on person.patient_id = k.patient_id and k.is_haemolysed
    and k.day <= person.as_of and (person.potassium_on is null or k.day > person.potassium_on)
),
pressure_rows as (
  select list('readings:' || r.import_id || ':' || r.line order by r.taken_at, r.import_id, r.line) as sources
  from person
  join bp_readings as r
    on r.patient_id = person.patient_id and r.setting = person.bp_source and r.day <= person.bp_on
    and r.day > case when person.bp_source = 'home' then person.bp_on - cast($home_window_days as integer) else person.bp_on - 1 end
),
potassium_rows as (
  select list('labs:' || k.import_id || ':' || k.line order by k.collected_at, k.import_id, k.line) as sources
  from potassium_results as k
  join person on person.patient_id = k.patient_id and k.day = person.potassium_on and not k.is_haemolysed
),
urine_rows as (
  select list('labs:' || u.import_id || ':' || u.line order by u.test, u.import_id, u.line) as sources
  from urine_results as u
  join person on person.patient_id = u.patient_id and u.day = person.urine_on
),
ras_stop_rows as (
  select list(distinct 'medications:' || o.import_id || ':' || o.line) as sources
  from person
  join class_orders as c
    on c.patient_id = person.patient_id and c.kind in ('ace_inhibitor', 'arb') and c.ends_on = person.ras_stopped_on
  join order_spans as spans on spans.order_key = c.order_key and spans.drug = person.ras_stopped_drug
  join orders as o on o.order_key = spans.order_key
),
merged_rows as (
  select list('patients:' || i.import_id || ':' || i.line order by i.import_id, i.line) as sources
  from person
  join identities as i on i.patient_id = person.patient_id and i.is_merged
),
cautions as (
  select 1 as rank, 'severe pressure' as caution, bp_source as word, cast(null as double) as number,
    cast(null as varchar) as comparator, bp_on as day, cast([] as varchar[]) as sources
  from person where category = 'severe'
  union all
  select 2, 'ras-blocker-in-pregnancy-or-angioedema', o.drugs, null, null, null,
    list_concat(o.sources, (select list(against_ras.source order by against_ras.source) from against_ras))
  from ras_orders as o
  join person on array_contains(person.held, 'ras-blocker-in-pregnancy-or-angioedema')
  union all
  select 3, 'potassium-high-on-drug', null, potassium, potassium_comparator, potassium_on, []
  from person where array_contains(held, 'potassium-high-on-drug')
  union all
  select 3, 'high potassium', null, potassium, potassium_comparator, potassium_on, []
  from person where is_potassium_high_lately and not array_contains(held, 'potassium-high-on-drug')
  union all
  select 4, 'creatinine-rise-after-start', rises.words, null, null, rises.day, rises.sources
  from rises
  join person on array_contains(person.held, 'creatinine-rise-after-start')
  where rises.place = 1
  union all
  select 5, 'two-ras-blockers', o.drugs, null, null, o.day, o.sources
  from ras_orders as o
  join person on array_contains(person.held, 'two-ras-blockers')
  union all
  select 6, 'stopped-without-taper', stopped.drugs, null, null, person.untapered_stop_on, stopped.sources
  from stopped
  join person on array_contains(person.held, 'stopped-without-taper')
  union all
  select 7, 'pressure-low-on-drugs', bp_source, systolic, null, bp_on, [] from person
  where array_contains(held, 'pressure-low-on-drugs')
  union all
  select 8, 'interfering-drug', interfering.drugs, null, null, null, interfering.sources
  from interfering
  join person on array_contains(person.held, 'interfering-drug')
  union all
  select 9, 'potassium in the diet', null, potassium, potassium_comparator, potassium_on, []
  from person where has_potassium_diet_flag
  union all
  select 10, 'stopped with albuminuria', ras_stopped_drug || coalesce(': ' || ras_stop_reason, ''), null, null,
    ras_stopped_on, []
  from person where ras_history = 'stopped' and albuminuria = 'confirmed'
  union all
  select 11, 'unread drug', drugs, null, null, null, sources from unread
  union all
  select 12, 'newer haemolysed', null, potassium, comparator, day, [source] from haemolysed where place = 1
  union all
  select 13, 'raised once', null, null, null, urine_on, [] from person where albuminuria = 'raised once'
  union all
  select 14, 'single reading', null, null, null, bp_on, [] from person where bp_source = 'office' and bp_readings = 1
  union all
  select 15, 'sex unknown', null, null, null, null, ['patients:' || import_id || ':' || line]
  from person where sex not in ('female', 'male')
  union all
  select 16, 'merged', null, null, null, null, [] from person where has_merged_records
)
select c.caution, c.word, c.number, c.comparator, c.day,
  coalesce(pressure_rows.sources, potassium_rows.sources, urine_rows.sources, ras_stop_rows.sources,
    merged_rows.sources, c.sources) as sources
from cautions as c
left join pressure_rows on c.caution in ('severe pressure', 'pressure-low-on-drugs', 'single reading')
left join potassium_rows on c.caution in ('potassium-high-on-drug', 'high potassium', 'potassium in the diet')
left join urine_rows on c.caution = 'raised once'
left join ras_stop_rows on c.caution = 'stopped with albuminuria'
left join merged_rows on c.caution = 'merged'
order by c.rank`,
  Row: PatientCaution,
} as const
