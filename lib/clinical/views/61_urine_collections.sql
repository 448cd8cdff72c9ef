-- Every 24-hour urine sodium with the creatinine of its collection, and what that says of the collection: complete, doubtful, or
-- it cannot be judged. The creatinine is that of the same day, of several the nearest in time. No mean leaves a record out for it.
-- Volume and weight are not in the extract, so neither the volume nor the creatinine index is asked.
with creatinines as (
  select
    f.patient_id,
    cast(f.collected_at as date) as day,
    f.collected_epoch,
    cast(f.value as double) as creatinine_mmol,
    f.comparator,
    f.import_id,
    f.line
  from labs_raw as f
  where f.test = 'urine_creatinine_24h'
),
paired as (
  select
    s.patient_id,
    cast(s.collected_at as date) as day,
    s.import_id,
    s.line,
    c.creatinine_mmol,
    c.comparator,
    c.import_id as creatinine_import_id,
    c.line as creatinine_line,
    least_creatinine_mmol_day(people.sex) as least_creatinine_mmol,
    row_number() over (
      partition by s.import_id, s.line
      order by abs(c.collected_epoch - s.collected_epoch), c.collected_epoch desc, c.import_id, c.line
    ) as place
  from urine_tests as s
  join people on people.patient_id = s.patient_id
  left join creatinines as c on c.patient_id = s.patient_id and c.day = cast(s.collected_at as date)
  where s.test = 'urine_sodium_24h'
),
judged as (
  select
    p.*,
    reaches(p.creatinine_mmol, p.comparator, p.least_creatinine_mmol) as is_enough,
    coalesce(p.comparator in ('<', '<='), false) as is_at_most,
    coalesce(p.comparator in ('>', '>='), false) as is_at_least
  from paired as p
  where p.place = 1
)
select
  j.patient_id,
  j.day,
  j.import_id,
  j.line,
  j.creatinine_mmol,
  j.comparator as creatinine_comparator,
  j.creatinine_import_id,
  j.creatinine_line,
  j.least_creatinine_mmol,
  case
    when j.is_enough and not j.is_at_most then 'complete'
    when not j.is_enough and not j.is_at_least then 'doubtful'
    else 'cannot be judged'
  end as completeness,
  case
    when j.creatinine_mmol is null then 'creatinine'
    when j.least_creatinine_mmol is null then 'sex'
    when (j.is_enough and j.is_at_most) or (not j.is_enough and j.is_at_least) then 'number'
  end as missing
from judged as j
