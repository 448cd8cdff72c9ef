-- The clinic's mean sodium of each month and series over the panel, each patient weighing one, and the paired change:
-- the same patients' mean now minus their mean in the calendar months 15 to 3 before.
-- Patient means are fixed to ten decimals before they are summed, so that the result does not depend on the order of summing.
with months as (
  select
    w.as_of,
    cast(date_trunc('month', w.as_of) as date) as month_start,
    months_before(cast(date_trunc('month', w.as_of) as date), 15) as earlier_start,
    months_before(cast(date_trunc('month', w.as_of) as date), 2) as earlier_end
  from as_of_windows as w
),
panel as (
  select d.patient_id, d.as_of from patient_days as d where d.in_panel
),
now as (
  select
    r.patient_id, m.as_of, r.series,
    cast(cast(sum(r.sodium_mg) as double) / count(*) as decimal(28, 10)) as mean_mg
  from sodium_records as r
  join months as m on r.day >= m.month_start and r.day <= m.as_of
  join panel on panel.patient_id = r.patient_id and panel.as_of = m.as_of
  group by r.patient_id, m.as_of, r.series
),
earlier as (
  select
    r.patient_id, m.as_of, r.series,
    cast(cast(sum(r.sodium_mg) as double) / count(*) as decimal(28, 10)) as mean_mg
  from sodium_records as r
  join months as m on r.day >= m.earlier_start and r.day < m.earlier_end
  group by r.patient_id, m.as_of, r.series
),
paired as (
  select now.patient_id, now.as_of, now.series, now.mean_mg, now.mean_mg - earlier.mean_mg as change_mg
  from now
  left join earlier
    on earlier.patient_id = now.patient_id and earlier.as_of = now.as_of and earlier.series = now.series
),
means as (
  select
    paired.as_of,
    paired.series,
    count(*) as n,
    cast(sum(paired.mean_mg) as double) / count(*) as mean_mg,
    count(paired.change_mg) as paired_n,
    case
      when count(paired.change_mg) > 0 then cast(sum(paired.change_mg) as double) / count(paired.change_mg)
    end as paired_change_mg
  from paired
  group by paired.as_of, paired.series
),
spreads as (
  select
    paired.as_of,
    paired.series,
    cast(sum(cast(power(cast(paired.mean_mg as double) - means.mean_mg, 2) as decimal(32, 6))) as double)
      as square_sum,
    cast(sum(cast(power(cast(paired.change_mg as double) - means.paired_change_mg, 2) as decimal(32, 6))) as double)
      as paired_square_sum
  from paired
  join means on means.as_of = paired.as_of and means.series = paired.series
  group by paired.as_of, paired.series
)
select
  means.as_of,
  means.series,
  cast(means.n as integer) as n,
  means.mean_mg,
  case when means.n > 1 then sqrt(spreads.square_sum / (means.n - 1)) end as sd_mg,
  cast(means.paired_n as integer) as paired_n,
  means.paired_change_mg,
  case when means.paired_n > 1 then sqrt(spreads.paired_square_sum / (means.paired_n - 1)) end as paired_sd_mg
from means
join spreads on spreads.as_of = means.as_of and spreads.series = means.series
