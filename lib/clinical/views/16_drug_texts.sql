-- Each distinct drug text and code with what they say together. Where they differ the union counts and the row is listed as
-- "disagrees". What a person mapped a text to replaces what its words say. A code may leave the diuretic of a combination
-- unnamed; a diuretic named by the text is that one.
with entries as (
  select
    o.drug as text,
    o.code_system,
    o.code,
    cast(count(*) as integer) as orders,
    cast(count(distinct o.patient_id) as integer) as patients
  from orders_raw as o
  group by o.drug, o.code_system, o.code
),
read as (
  select
    e.text,
    e.code_system,
    e.code,
    e.orders,
    e.patients,
    t.normalised,
    coalesce(m.is_ignored, false) as is_ignored,
    case when m.is_ignored then cast([] as varchar[]) when m.text is not null then m.ingredients else t.ingredients end
      as text_ingredients,
    case when m.text is not null then cast([] as varchar[]) else t.unknown_words end as unknown_words
  from entries as e
  join text_ingredients as t on t.text = e.text
  left join drug_name_mappings as m on m.text = t.normalised
),
said_by_text as (
  select r.text, r.code_system, r.code, unnest(r.text_ingredients) as ingredient from read as r
),
said_by_code as (
  select r.text, r.code_system, r.code, c.ingredient
  from read as r
  join code_ingredients as c on c.code_system = r.code_system and c.code = r.code
),
text_diuretics as (
  select s.text, s.code_system, s.code, s.ingredient
  from said_by_text as s
  join drug_ingredients as i on i.ingredient = s.ingredient
  where i.class = 'diuretic'
),
said as (
  select text, code_system, code, ingredient, true as by_text, false as by_code from said_by_text
  union all
  select c.text, c.code_system, c.code, coalesce(d.ingredient, c.ingredient), false as by_text, true as by_code
  from said_by_code as c
  left join text_diuretics as d
    on c.ingredient = 'unspecified diuretic'
    and d.text = c.text
    and d.code_system is not distinct from c.code_system
    and d.code is not distinct from c.code
),
ingredients as (
  select
    said.text,
    said.code_system,
    said.code,
    said.ingredient,
    bool_or(said.by_text) as by_text,
    bool_or(said.by_code) as by_code,
    bool_or(nullif(i.class, '') is not null) as has_class
  from said
  left join drug_ingredients as i on i.ingredient = said.ingredient
  group by said.text, said.code_system, said.code, said.ingredient
),
together as (
  select
    i.text,
    i.code_system,
    i.code,
    list(i.ingredient order by i.ingredient) as ingredients,
    list(i.ingredient order by i.ingredient) filter (where i.by_text) as text_ingredients,
    list(i.ingredient order by i.ingredient) filter (where i.by_code) as code_ingredients,
    bool_or(i.by_text) and bool_or(i.by_code) and not bool_and(i.by_text and i.by_code) as disagrees,
    bool_or(i.by_code) as has_code,
    bool_or(i.has_class) as has_class
  from ingredients as i
  group by i.text, i.code_system, i.code
)
select
  r.text,
  r.code_system,
  r.code,
  r.normalised,
  r.orders,
  r.patients,
  coalesce(t.text_ingredients, cast([] as varchar[])) as text_ingredients,
  coalesce(t.code_ingredients, cast([] as varchar[])) as code_ingredients,
  coalesce(t.ingredients, cast([] as varchar[])) as ingredients,
  r.unknown_words,
  coalesce(t.disagrees, false) as disagrees,
  case
    when t.text is null and not r.is_ignored then 'unmapped'
    when t.disagrees then 'disagrees'
    when len(r.unknown_words) > 0 and not t.has_code then 'part not recognised'
    when t.has_class then 'mapped'
    else 'not a counted drug'
  end as status
from read as r
left join together as t
  on t.text = r.text and t.code_system is not distinct from r.code_system and t.code is not distinct from r.code
