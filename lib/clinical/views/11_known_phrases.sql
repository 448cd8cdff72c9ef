-- What the code lists know, one row per phrase, place where it may stand and thing it says.
-- meaning: ingredient (says: the ingredient), alone (the same, if nothing else in the text is a drug), group (says: a kind of
-- drug), uncounted route, counted route, as needed, noise. string_split and unnest take a cell's list apart.
with spelled as (
  select n.text, n.spelling from normalised_texts as n where n.domain is null
),
other_names as (
  select n.name, n.only_alone, unnest(string_split(n.ingredients, ';')) as ingredient
  from drug_names as n
),
said as (
  select i.ingredient as text, 'ingredient' as meaning, i.ingredient as says from drug_ingredients as i
  union
  select o.name, case when o.only_alone = 'yes' then 'alone' else 'ingredient' end, o.ingredient from other_names as o
  union
  select g.name, 'group', g.kind from allergy_groups as g
  union
  select w.word, case when w.meaning = 'as_needed' then 'as needed' else 'noise' end, null from drug_words as w
  union
  select r.word, case when r.counted = 'no' then 'uncounted route' else 'counted route' end, r.applies_to
  from route_words as r
  where r.applies_to <> 'atc'
),
domains (domain) as (
  values ('drug'), ('route'), ('substance')
)
select
  domains.domain,
  spelled.spelling as phrase,
  said.meaning,
  said.says
from said
join spelled on spelled.text = said.text
join domains
  on case
    when said.meaning = 'noise' then true
    when said.meaning = 'group' then domains.domain = 'substance'
    when said.meaning in ('uncounted route', 'counted route')
      then said.says = 'both' or (said.says = 'route') = (domains.domain = 'route')
    else domains.domain <> 'route'
  end
