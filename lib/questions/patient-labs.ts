import { z } from "zod"

const text = z.string().nullable()

export const LabPoint = z.object({
  series: z.enum(["egfr", "unused eGFR", "acr", "pcr", "potassium"]),
  day: z.string(),
  number: z.number(),
  comparator: text,
  /** The result as the laboratory wrote it. */
  reported: z.string(),
  /** What sets a result apart: its category, its origin, why it is not used. */
  remark: text,
  is_used: z.boolean(),
  sources: z.array(z.string()),
})

export type LabPoint = z.infer<typeof LabPoint>

/** The kidney results and potassium of a person over the 36 months to a day, used and not used. */
export const patientLabs = {
  sql: `with person as materialized (
  select people.patient_id, w.as_of, w.confirmation_after
  from people
  join as_of_windows as w on w.as_of = cast($as_of as date)
  where people.public_id = cast($public_id as varchar)
),
filtration as materialized (
  select
    f.day, f.collected_at, f.test, f.value, f.comparator, f.is_usable,
    f.value_text || coalesce(' ' || f.unit_text, '') as reported,
    'labs:' || f.import_id || ':' || f.line as source
  from filtration_results as f
  join person on person.patient_id = f.patient_id and f.day > person.confirmation_after and f.day <= person.as_of
),
staged as (
  select e.day, e.egfr, e.source as origin
  from egfr_days as e
  join person on person.patient_id = e.patient_id and e.day > person.confirmation_after and e.day <= person.as_of
),
used as (
  select
    'egfr' as series, staged.day, cast(staged.egfr as double) as number, cast(null as varchar) as comparator,
    string_agg(f.reported, ', ' order by f.collected_at, f.source) as reported,
    case when staged.origin = 'reported' then 'as reported by the laboratory' else 'from creatinine' end as remark,
    true as is_used,
    list(f.source order by f.collected_at, f.source) as sources
  from staged
  join filtration as f
    on f.day = staged.day and f.is_usable
    and f.test = case when staged.origin = 'reported' then 'egfr' else 'creatinine' end
  group by staged.day, staged.egfr, staged.origin
),
unused as (
  select
    'unused eGFR' as series, f.day, cast(f.value as double) as number, f.comparator, f.test || ' ' || f.reported as reported,
    case
      when not f.is_usable then 'during a hospital stay or emergency visit: not used for staging'
      when f.comparator is not null then 'with a comparator: not used for staging'
      else 'not used for staging'
    end as remark,
    false as is_used, [f.source] as sources
  from filtration as f
  left join staged
    on staged.day = f.day and f.is_usable
    and f.test = case when staged.origin = 'reported' then 'egfr' else 'creatinine' end
  where staged.day is null
),
urine as (
  select
    case when u.test = 'uacr' then 'acr' else 'pcr' end as series, u.day, u.value_mg_g as number, u.comparator,
    u.value_text || coalesce(' ' || u.unit_text, '') as reported, u.a as remark, true as is_used,
    ['labs:' || u.import_id || ':' || u.line] as sources
  from urine_results as u
  join person on person.patient_id = u.patient_id and u.day > person.confirmation_after and u.day <= person.as_of
),
potassium as (
  select
    'potassium' as series, k.day, k.potassium as number, k.comparator,
    k.value_text || coalesce(' ' || k.unit_text, '') as reported,
    case when k.is_haemolysed then 'haemolysed: not used' end as remark, not k.is_haemolysed as is_used,
    ['labs:' || k.import_id || ':' || k.line] as sources
  from potassium_results as k
  join person on person.patient_id = k.patient_id and k.day > person.confirmation_after and k.day <= person.as_of
)
select series, day, number, comparator, reported, remark, is_used, sources from used
union all
select series, day, number, comparator, reported, remark, is_used, sources from unused
union all
select series, day, number, comparator, reported, remark, is_used, sources from urine
union all
select series, day, number, comparator, reported, remark, is_used, sources from potassium
order by series, day, number, sources`,
  Row: LabPoint,
} as const
