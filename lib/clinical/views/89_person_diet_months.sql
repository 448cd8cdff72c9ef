-- Each person's mean sodium in a month and series, in the panel or not, and the paired change: that mean minus the person's own
-- mean in the calendar months 15 to 3 before.
-- Patient means are fixed to ten decimals before they are summed, so that the result does not depend on the order of summing.
with months as (
  select
    w.as_of,
    cast(date_trunc('month', w.as_of) as date) as month_start,
    months_before(cast(date_trunc('month', w.as_of) as date), 15) as earlier_start,
    months_before(cast(date_trunc('month', w.as_of) as date), 2) as earlier_end
  from as_of_windows as w
),
now as (
  select
    r.patient_id, m.as_of, r.series,
    cast(cast(sum(r.sodium_mg) as double) / count(*) as decimal(28, 10)) as mean_mg
  from sodium_records as r
  join months as m on r.day >= m.month_start and r.day <= m.as_of
  join patient_days as d on d.patient_id = r.patient_id and d.as_of = m.as_of
  group by r.patient_id, m.as_of, r.series
),
earlier as (
  select
    r.patient_id, m.as_of, r.series,
    cast(cast(sum(r.sodium_mg) as double) / count(*) as decimal(28, 10)) as mean_mg
  from sodium_records as r
  join months as m on r.day >= m.earlier_start and r.day < m.earlier_end
  group by r.patient_id, m.as_of, r.series
)
select now.patient_id, now.as_of, now.series, now.mean_mg, now.mean_mg - earlier.mean_mg as change_mg
from now
left join earlier
  on earlier.patient_id = now.patient_id and earlier.as_of = now.as_of and earlier.series = now.series
