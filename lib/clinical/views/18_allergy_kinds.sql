-- The kinds of drug each allergy substance names, by ingredient or as a group ("ACE inhibitors", "sartans").
select distinct
  p.text as substance,
  i.ingredient,
  coalesce(i.kind, p.says) as kind
from text_phrases as p
left join drug_ingredients as i on p.meaning = 'ingredient' and i.ingredient = p.says
where p.domain = 'substance' and p.meaning in ('ingredient', 'group')
