-- Problems by code, without their description. A code that fewer than eleven people have is its category; where that is as
-- rare, or the problem has no code, it is left out.
with coded as (
  select
    p.patient_id,
    p.code_system,
    upper(replace(trim(p.code), '.', '')) as code,
    p.onset_on,
    p.resolved_on,
    p.recorded_on,
    p.verification,
    row_number() over (partition by p.patient_id order by p.recorded_on, p.onset_on, p.import_id, p.line) as number
  from problems_raw as p
  where p.code is not null
),
shown as (
  select
    coded.*,
    case
      when common.value is not null then coded.code
      when categories.value is not null then left(coded.code, 3)
    end as shown_code
  from coded
  left join common_values as common
    on common.what = 'code' and common.value = coded.code_system || ' ' || coded.code
  left join common_values as categories
    on categories.what = 'code'
    and coded.code_system in ('icd10', 'icd10cm')
    and categories.value = coded.code_system || ' ' || left(coded.code, 3)
)
select
  lines.code as patient_id,
  shown.code_system,
  shown.shown_code as code,
  case when shown.onset_on is not null then greatest(lines.born, shown.onset_on - lines.shift_days) end as onset_on,
  case when shown.resolved_on is not null then greatest(lines.born, shown.resolved_on - lines.shift_days) end as resolved_on,
  case when shown.recorded_on is not null then greatest(lines.born, shown.recorded_on - lines.shift_days) end as recorded_on,
  shown.verification,
  lines.code || '-D' || shown.number as problem_id
from shown
join lines on lines.patient_id = shown.patient_id
where shown.shown_code is not null
order by lines.code, shown.number
