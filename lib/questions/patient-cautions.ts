import { z } from "zod"

const text = z.string().nullable()

export const PatientCaution = z.object({
  caution: z.enum([
    ...([
      "severe pressure",
      "low pressure",
      "high potassium",
      "two kinds of ras blocker",
      "stopped with albuminuria",
    ] as const),
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
    p.is_pressure_low_lately, p.is_potassium_high_lately, p.potassium, p.potassium_comparator, p.potassium_on,
    p.albuminuria, p.urine_on, p.ras_history, p.ras_stopped_drug, p.ras_stopped_on, p.ras_stop_reason,
    people.sex, people.has_merged_records, people.import_id, people.line
  from people
  join patient_values as p on p.patient_id = people.patient_id and p.as_of = cast($as_of as date)
  where people.public_id = cast($public_id as varchar)
),
active_orders as (
  select o.order_key, o.drug, o.code_system, o.code, spans.started_on,
    'medications:' || o.import_id || ':' || o.line as source
  from order_spans as spans
  join person on person.patient_id = spans.patient_id
    and spans.started_on <= person.as_of and (spans.ends_on is null or spans.ends_on > person.as_of)
  join orders as o on o.order_key = spans.order_key
),
ras_kinds as (
  select
    count(distinct c.kind) as kinds, string_agg(distinct o.drug, ', ' order by o.drug) as drugs,
    max(o.started_on) as day, list(distinct o.source) as sources
  from active_orders as o
  join person on true
  join class_orders as c
    on c.patient_id = person.patient_id and c.order_key = o.order_key and c.kind in ('ace_inhibitor', 'arb', 'direct_renin_inhibitor')
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
cautions as (
  select 1 as rank, 'severe pressure' as caution, bp_source as word, cast(null as double) as number,
    cast(null as varchar) as comparator, bp_on as day, cast([] as varchar[]) as sources
  from person where category = 'severe'
  union all
  select 2, 'high potassium', null, potassium, potassium_comparator, potassium_on, []
  from person where is_potassium_high_lately
  union all
  select 3, 'two kinds of ras blocker', drugs, null, null, day, sources from ras_kinds where kinds > 1
  union all
  select 4, 'low pressure', bp_source, systolic, null, bp_on, [] from person
  where is_pressure_low_lately and newest_class_on is not null
  union all
  select 5, 'stopped with albuminuria', ras_stopped_drug || coalesce(': ' || ras_stop_reason, ''), null, null,
    ras_stopped_on, []
  from person where ras_history = 'stopped' and albuminuria = 'confirmed'
  union all
  select 6, 'unread drug', drugs, null, null, null, sources from unread
  union all
  select 7, 'newer haemolysed', null, potassium, comparator, day, [source] from haemolysed where place = 1
  union all
  select 8, 'raised once', null, null, null, urine_on, [] from person where albuminuria = 'raised once'
  union all
  select 9, 'single reading', null, null, null, bp_on, [] from person where bp_source = 'office' and bp_readings = 1
  union all
  select 10, 'sex unknown', null, null, null, null, ['patients:' || import_id || ':' || line]
  from person where sex not in ('female', 'male')
  union all
  select 11, 'merged', null, null, null, null, [] from person where has_merged_records
)
select caution, word, number, comparator, day, sources
from cautions
order by rank`,
  Row: PatientCaution,
} as const
