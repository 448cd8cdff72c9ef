-- The words of each distinct text in their order. A number is a strength and no word.
select
  n.domain,
  n.text,
  cast(words.position as integer) as position,
  words.word,
  regexp_matches(words.word, '^\p{N}+$') as is_number
from normalised_texts as n
cross join unnest(string_split(n.spelling, ' ')) with ordinality as words (word, position)
where n.domain is not null and n.spelling <> ''
