-- Names that an unread word of a drug text, or the whole text, misses by one letter: inserted, dropped, changed, or two
-- neighbours swapped. They are shown to a person and map nothing. Names and words of fewer than five letters are too near
-- to each other to suggest anything. Each way of missing is a join on equal text, so that no word is held against every name.
with unread as (
  select distinct t.normalised, unnest(t.unknown_words) as word
  from drug_texts as t
  where t.status in ('unmapped', 'part not recognised')
  union
  select t.normalised, t.normalised
  from drug_texts as t
  where t.status = 'unmapped'
),
misspelt as (
  select u.normalised, u.word from unread as u where length(u.word) >= 5
),
names as (
  select distinct k.phrase as name, k.says as ingredient
  from known_phrases as k
  where k.meaning in ('ingredient', 'alone') and length(k.phrase) >= 5
),
places (place) as (
  select cast(n.n as integer) from range(1, 100) as n(n)
),
misspelt_places as (
  select
    m.word,
    left(m.word, p.place - 1) || substr(m.word, p.place + 1) as without_letter,
    left(m.word, p.place - 1) || '_' || substr(m.word, p.place + 1) as with_gap,
    left(m.word, p.place - 1) || substr(m.word, p.place + 1, 1) || substr(m.word, p.place, 1) || substr(m.word, p.place + 2)
      as with_swap
  from (select distinct word from misspelt) as m
  join places as p on p.place <= length(m.word)
),
name_places as (
  select
    n.name,
    left(n.name, p.place - 1) || substr(n.name, p.place + 1) as without_letter,
    left(n.name, p.place - 1) || '_' || substr(n.name, p.place + 1) as with_gap
  from (select distinct name from names) as n
  join places as p on p.place <= length(n.name)
),
near as (
  select m.word, n.name from misspelt_places as m join names as n on n.name = m.without_letter
  union
  select m.word, n.name from misspelt as m join name_places as n on n.without_letter = m.word
  union
  select m.word, n.name from misspelt_places as m join name_places as n on n.with_gap = m.with_gap
  union
  select m.word, n.name from misspelt_places as m join names as n on n.name = m.with_swap
)
select distinct m.normalised, m.word, near.name, names.ingredient
from misspelt as m
join near on near.word = m.word
join names on names.name = near.name
