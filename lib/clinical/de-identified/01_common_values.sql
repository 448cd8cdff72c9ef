-- What at least eleven people have in common: words of the record that are rarer could point at somebody. A problem's code
-- counts with its category (the first three characters of ICD-10), which stands for it where the code itself is too rare.
with problem_codes as (
  select
    p.patient_id,
    p.code_system,
    upper(replace(trim(p.code), '.', '')) as code
  from problems_raw as p
  where p.code is not null
),
held as (
  select people.patient_id, 'language' as what, split_part(lower(people.language), '-', 1) as value from people
  union all
  select people.patient_id, 'ethnicity', people.ethnicity from people
  union all
  select people.patient_id, 'race', trim(words.word)
  from people
  cross join unnest(string_split(people.race, ';')) as words (word)
  union all
  select c.patient_id, 'code', c.code_system || ' ' || c.code from problem_codes as c
  union all
  select c.patient_id, 'code', c.code_system || ' ' || left(c.code, 3)
  from problem_codes as c
  where c.code_system in ('icd10', 'icd10cm')
)
select held.what, held.value
from held
where held.value is not null and held.value <> ''
group by held.what, held.value
having count(distinct held.patient_id) >= 11
