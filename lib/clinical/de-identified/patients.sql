-- The people by code: no name, number, place or way to reach them; words that fewer than eleven share are left out.
with races as (
  select people.patient_id, string_agg(distinct common.value, ';' order by common.value) as race
  from people
  cross join unnest(string_split(people.race, ';')) as words (word)
  join common_values as common on common.what = 'race' and common.value = trim(words.word)
  group by people.patient_id
)
select
  lines.code as patient_id,
  lines.born as birth_date,
  people.sex,
  languages.value as language,
  races.race,
  ethnicities.value as ethnicity,
  staff_codes.code as clinician_id,
  site_codes.code as site,
  greatest(lines.born, people.registered_on - lines.shift_days) as registered_on,
  case when people.left_on is not null then greatest(lines.born, people.left_on - lines.shift_days) end as left_on,
  people.left_reason,
  case when people.died_on is not null then greatest(lines.born, people.died_on - lines.shift_days) end as died_on
from people
join lines on lines.patient_id = people.patient_id
left join races on races.patient_id = people.patient_id
left join common_values as languages
  on languages.what = 'language' and languages.value = split_part(lower(people.language), '-', 1)
left join common_values as ethnicities on ethnicities.what = 'ethnicity' and ethnicities.value = people.ethnicity
left join staff_codes on staff_codes.original = people.clinician_id
left join site_codes on site_codes.original = people.site
order by lines.code
