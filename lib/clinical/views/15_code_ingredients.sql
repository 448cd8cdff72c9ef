-- What each distinct code says: one row per ingredient. An ATC code of level 5 or an RxNorm ingredient that is on no list, and
-- one that leaves its content open, says nothing; SNOMED and NDC codes are on no list.
with codes as (
  select distinct o.code_system, o.code, upper(trim(o.code)) as bare_code
  from orders_raw as o
),
single as (
  select 'atc' as code_system, unnest(string_split(i.atc, ';')) as code, i.ingredient from drug_ingredients as i
  union
  select 'rxnorm' as code_system, i.rxcui as code, i.ingredient from drug_ingredients as i
),
combined as (
  select c.code_system, c.code, unnest(string_split(c.ingredients, ';')) as ingredient from drug_combinations as c
),
listed as (
  select code_system, code, ingredient from single
  union
  select code_system, code, ingredient from combined
)
select codes.code_system, codes.code, listed.ingredient
from codes
join listed on listed.code_system = codes.code_system and listed.code = codes.bare_code
