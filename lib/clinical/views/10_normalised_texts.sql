-- Every text in which a drug or a route is named, with every name and word of the code lists, brought to one spelling:
-- lower case, no accents, letters apart from digits, everything else a blank. Only distinct texts are looked at.
-- domain: where the text stands (drug, route, substance), empty for the names of the lists.
-- The classes \p{L} and \p{N} are read by RE2 and Java patterns; Postgres writes them [[:alpha:]] and [[:digit:]].
with texts as (
  select 'drug' as domain, o.drug as text from orders_raw as o
  union
  select 'route' as domain, o.route as text from orders_raw as o
  union
  select 'substance' as domain, a.substance as text from allergies_raw as a
  union
  select null as domain, i.ingredient as text from drug_ingredients as i
  union
  select null as domain, n.name as text from drug_names as n
  union
  select null as domain, w.word as text from drug_words as w
  union
  select null as domain, r.word as text from route_words as r where r.applies_to <> 'atc'
  union
  select null as domain, g.name as text from allergy_groups as g
),
lowered as (
  select texts.domain, texts.text, regexp_replace(lower(strip_accents(texts.text)), '[''’]', '', 'g') as spelling
  from texts
  where texts.text is not null
),
parted as (
  select
    lowered.domain,
    lowered.text,
    regexp_replace(
      regexp_replace(lowered.spelling, '(\p{L})(\p{N})', '\1 \2', 'g'),
      '(\p{N})(\p{L})', '\1 \2', 'g'
    ) as spelling
  from lowered
)
select parted.domain, parted.text, trim(regexp_replace(parted.spelling, '[^\p{L}\p{N}]+', ' ', 'g')) as spelling
from parted
