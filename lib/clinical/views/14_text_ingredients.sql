-- What each distinct drug text says: its ingredients, the words nobody knows, a route that never counts, "as needed".
-- `normalised` is the text without strengths, salts and forms: the key under which a person maps it once for all.
-- Lists, because a text has any number of ingredients and of unknown words; both are handed out as they are.
with phrases as (
  select p.text, p.position, p.word_count, p.meaning, p.says from text_phrases as p where p.domain = 'drug'
),
words as (
  select w.text, w.position, w.word from text_words as w where w.domain = 'drug' and not w.is_number
),
named as (
  select
    phrases.text,
    coalesce(
      list(distinct phrases.says order by phrases.says) filter (where phrases.meaning = 'ingredient'),
      list(distinct phrases.says order by phrases.says) filter (where phrases.meaning = 'alone')
    ) as ingredients,
    bool_or(phrases.meaning = 'uncounted route') as has_uncounted_route,
    bool_or(phrases.meaning = 'as needed') as is_as_needed
  from phrases
  group by phrases.text
),
word_meanings as (
  select
    words.text,
    words.position,
    words.word,
    bool_or(phrases.text is not null) as is_known,
    coalesce(bool_or(phrases.meaning in ('ingredient', 'uncounted route')), true) as is_kept
  from words
  left join phrases
    on phrases.text = words.text
    and phrases.position <= words.position
    and phrases.position + phrases.word_count > words.position
  group by words.text, words.position, words.word
),
spelled as (
  select
    m.text,
    list(m.word order by m.position) filter (where not m.is_known) as unknown_words,
    list(m.word order by m.position) as all_words,
    string_agg(m.word, ' ' order by m.position) filter (where m.is_kept) as kept_words
  from word_meanings as m
  group by m.text
)
select
  n.text,
  coalesce(spelled.kept_words, n.spelling) as normalised,
  coalesce(named.ingredients, cast([] as varchar[])) as ingredients,
  case
    when named.ingredients is null then coalesce(spelled.unknown_words, spelled.all_words, cast([] as varchar[]))
    else coalesce(spelled.unknown_words, cast([] as varchar[]))
  end as unknown_words,
  coalesce(named.has_uncounted_route, false) as has_uncounted_route,
  coalesce(named.is_as_needed, false) as is_as_needed
from normalised_texts as n
left join spelled on spelled.text = n.text
left join named on named.text = n.text
where n.domain = 'drug'
