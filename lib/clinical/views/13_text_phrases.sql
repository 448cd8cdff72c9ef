-- The known phrases of each text, longest first: a phrase that overlaps a longer one, or an equally long earlier one, is none.
-- So "potassium canrenoate" is a drug and not a salt, and "eye drops" is one route.
with runs as (
  select
    w.domain,
    w.text,
    w.position,
    w.word,
    lead(w.word, 1) over in_order as word_2,
    lead(w.word, 2) over in_order as word_3,
    lead(w.word, 3) over in_order as word_4,
    lead(w.word, 4) over in_order as word_5
  from text_words as w
  window in_order as (partition by w.domain, w.text order by w.position)
),
spans as (
  select domain, text, position, 1 as word_count, word as phrase from runs
  union all
  select domain, text, position, 2, word || ' ' || word_2 from runs
  union all
  select domain, text, position, 3, word || ' ' || word_2 || ' ' || word_3 from runs
  union all
  select domain, text, position, 4, word || ' ' || word_2 || ' ' || word_3 || ' ' || word_4 from runs
  union all
  select domain, text, position, 5, word || ' ' || word_2 || ' ' || word_3 || ' ' || word_4 || ' ' || word_5 from runs
),
candidates as (
  select distinct spans.domain, spans.text, spans.position, spans.word_count, spans.phrase
  from spans
  join known_phrases as k on k.domain = spans.domain and k.phrase = spans.phrase
),
overlapped as (
  select distinct c.domain, c.text, c.position, c.word_count
  from candidates as c
  join candidates as other
    on other.domain = c.domain
    and other.text = c.text
    and other.position < c.position + c.word_count
    and other.position + other.word_count > c.position
    and (other.word_count > c.word_count or (other.word_count = c.word_count and other.position < c.position))
)
select c.domain, c.text, c.position, c.word_count, k.meaning, k.says
from candidates as c
join known_phrases as k on k.domain = c.domain and k.phrase = c.phrase
left join overlapped as o
  on o.domain = c.domain and o.text = c.text and o.position = c.position and o.word_count = c.word_count
where o.text is null
