-- The ingredients of every counted order, with the class (empty: not a counted drug) and the finer kind of each.
with contents as (
  select t.text, t.code_system, t.code, unnest(t.ingredients) as ingredient from drug_texts as t
)
select o.order_key, contents.ingredient, nullif(i.class, '') as class, i.kind
from orders as o
join contents
  on contents.text = o.drug
  and contents.code_system is not distinct from o.code_system
  and contents.code is not distinct from o.code
left join drug_ingredients as i on i.ingredient = contents.ingredient
where o.is_counted
