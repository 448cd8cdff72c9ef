-- Every urine albumin or protein to creatinine ratio with its category, cut in the unit the laboratory reported (by either border
-- of A3, and by the one that is set), and the latest earlier day that confirms it.
with results as (
  select
    f.patient_id,
    f.collected_at,
    f.collected_epoch,
    cast(f.collected_at as date) as day,
    f.test,
    cast(f.value as double) as value_mg_g,
    f.comparator,
    cast(f.number as double) as number,
    f.unit,
    f.value_text,
    f.unit_text,
    albuminuria_category(cast(f.number as double), f.comparator, f.test, f.unit, 'kdigo') as a_kdigo,
    albuminuria_category(cast(f.number as double), f.comparator, f.test, f.unit, 'ada') as a_ada,
    albuminuria_needs_no_repeat(cast(f.number as double), f.comparator, f.test, f.unit) as needs_no_repeat,
    date_diff('day', date '1970-01-01', cast(f.collected_at as date)) as day_number,
    f.import_id,
    f.line
  from urine_tests as f
  where f.test in ('uacr', 'upcr')
)
select
  results.patient_id,
  results.collected_at,
  results.collected_epoch,
  results.day,
  results.test,
  results.value_mg_g,
  results.comparator,
  results.number,
  results.unit,
  results.value_text,
  results.unit_text,
  results.a_kdigo,
  results.a_ada,
  case s.acr_a3 when 'ada' then results.a_ada else results.a_kdigo end as a,
  results.needs_no_repeat,
  max(case when results.a_kdigo in ('A2', 'A3') then results.day end) over (
    partition by results.patient_id order by results.day_number
    range between unbounded preceding and s.acr_confirm_days preceding
  ) as confirmed_by_day,
  results.import_id,
  results.line
from results
cross join settings as s
