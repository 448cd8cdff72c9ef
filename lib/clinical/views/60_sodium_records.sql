-- Every diet record and every 24-hour urine sodium (mmol x 22.99 = mg, divided by the recovery), by series.
-- Exact decimals, so that sums do not depend on their order.
select
  f.patient_id,
  f.recorded_on as day,
  case when f.method = 'food_frequency' then 'food frequency' else 'counted days' end as series,
  f.method,
  f.sodium_mg,
  f.potassium_mg,
  cast(null as varchar) as comparator,
  'diet' as file,
  f.import_id,
  f.line
from diet_raw as f
union all
select
  f.patient_id,
  cast(f.collected_at as date),
  '24-hour urine',
  'urine_24h',
  cast(cast(f.value * 22.99 as decimal(28, 8)) / s.diet_urine_recovery as decimal(18, 6)),
  cast(null as decimal(18, 6)),
  f.comparator,
  'labs',
  f.import_id,
  f.line
from urine_tests as f
cross join settings as s
where f.test = 'urine_sodium_24h'
