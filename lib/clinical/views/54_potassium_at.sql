-- The latest potassium that is not haemolysed: latest instant, at one instant the higher value.
with days as (
  select
    p.*,
    row_number() over (
      partition by p.patient_id, p.day
      order by p.collected_epoch desc, p.potassium desc,
        case p.comparator when '>' then 0 when '<' then 2 else 1 end, p.import_id, p.line
    ) as place
  from potassium_results as p
  where not p.is_haemolysed
),
ranges as (
  select
    d.*,
    lead(d.day) over (partition by d.patient_id order by d.day) as next_day
  from days as d
  where d.place = 1
)
select
  r.patient_id,
  w.as_of,
  r.potassium,
  r.comparator as potassium_comparator,
  r.day as potassium_on,
  exceeds(r.potassium, r.comparator, 5.5) as is_potassium_high
from ranges as r
join as_of_windows as w on r.day <= w.as_of and (r.next_day is null or r.next_day > w.as_of)
