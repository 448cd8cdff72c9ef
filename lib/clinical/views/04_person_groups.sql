-- One row per person: the groups of equity breakdowns, never part of a formula. Language by its first part ('en' of 'en-US'). A code
-- and its name are one answer, whatever the case; whoever gave several races is 'more than one' once; a race or ethnicity beside
-- 'declined' goes before it; null is not asked. string_split and unnest take a cell's list apart.
with answers as (
  select p.patient_id, 'race' as kind, trim(unnest(string_split(p.race, ';'))) as answer from people as p
  union all
  select p.patient_id, 'ethnicity' as kind, trim(p.ethnicity) as answer from people as p
),
named as (
  select distinct a.patient_id, a.kind, coalesce(c.name, lower(a.answer)) as name
  from answers as a
  left join answer_codes as c
    on c.kind = a.kind and (lower(c.code) = lower(a.answer) or lower(c.name) = lower(a.answer))
  where a.answer <> ''
),
grouped as (
  select
    n.patient_id,
    n.kind,
    case count(*) filter (where n.name <> 'declined')
      when 0 then 'declined'
      when 1 then max(n.name) filter (where n.name <> 'declined')
      else 'more than one'
    end as name
  from named as n
  group by n.patient_id, n.kind
)
select
  p.patient_id,
  nullif(lower(split_part(trim(p.language), '-', 1)), '') as language,
  race.name as race,
  ethnicity.name as ethnicity
from people as p
left join grouped as race on race.patient_id = p.patient_id and race.kind = 'race'
left join grouped as ethnicity on ethnicity.patient_id = p.patient_id and ethnicity.kind = 'ethnicity'
