-- When each problem of a condition group is active: from onset, else recording, else registration, while not resolved.
-- A pregnancy without an end lasts ten months.
with codes as (
  select distinct
    f.code_system,
    f.code,
    case when f.code_system = 'snomed' then 'snomed' else 'icd10' end as system,
    upper(replace(f.code, '.', '')) as bare_code
  from problems_raw as f
  where f.code is not null
),
groups as (
  select distinct codes.code_system, codes.code, c.condition
  from codes
  join conditions as c
    on c.code_system = codes.system
    and case when c.match = 'prefix' then starts_with(codes.bare_code, c.code) else codes.bare_code = c.code end
)
select
  f.patient_id,
  groups.condition,
  coalesce(f.onset_on, f.recorded_on, people.registered_on) as starts_on,
  f.onset_on is null and f.recorded_on is null as is_onset_unknown,
  case
    when f.resolved_on is not null then f.resolved_on
    when groups.condition = 'pregnancy'
      then months_before(coalesce(f.onset_on, f.recorded_on, people.registered_on), -10)
  end as ends_on,
  f.code,
  f.description,
  f.import_id,
  f.line
from problems_raw as f
join groups on groups.code = f.code and groups.code_system is not distinct from f.code_system
join people on people.patient_id = f.patient_id
where f.verification = 'confirmed'
