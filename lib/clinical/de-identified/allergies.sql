-- Allergies by the drug or group that the text names; any other is "other substance".
with groups as (
  select g.kind, min(g.name) as name from allergy_groups as g group by g.kind
),
named as (
  select
    k.substance,
    string_agg(distinct coalesce(k.ingredient, groups.name), ' / ' order by coalesce(k.ingredient, groups.name)) as written
  from allergy_kinds as k
  left join groups on groups.kind = k.kind
  group by k.substance
),
written as (
  select
    g.patient_id,
    coalesce(named.written, 'other substance') as substance,
    g.reaction,
    max(g.kind) as kind,
    min(g.recorded_on) as recorded_on
  from allergies_raw as g
  left join named on named.substance = g.substance
  group by g.patient_id, coalesce(named.written, 'other substance'), g.reaction
)
select
  lines.code as patient_id,
  written.substance,
  written.reaction,
  written.kind,
  case when written.recorded_on is not null then greatest(lines.born, written.recorded_on - lines.shift_days) end as recorded_on
from written
join lines on lines.patient_id = written.patient_id
order by lines.code, written.substance, written.reaction
