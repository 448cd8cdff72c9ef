-- Each set of class or kind words that occurs, as its sorted list: the form the definitions hand out.
with sets as (
  select distinct 'class' as what, d.class_set as drug_set from drugs_at as d
  union all
  select distinct 'kind', d.kind_set from drugs_at as d where d.kind_set is not null
)
select
  sets.what,
  sets.drug_set,
  list(words.word order by words.word) as words,
  cast(count(*) as integer) as size
from sets
join drug_words_used as words
  on words.what = sets.what and (sets.drug_set >> cast(words.place as integer)) & 1 = 1
group by sets.what, sets.drug_set
