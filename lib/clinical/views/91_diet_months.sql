-- The clinic's mean sodium of each month and series over the panel, each patient weighing one, and the mean paired change.
with means as (
  select
    people.as_of,
    people.series,
    count(*) as n,
    cast(sum(people.mean_mg) as double) / count(*) as mean_mg,
    count(people.change_mg) as paired_n,
    case
      when count(people.change_mg) > 0 then cast(sum(people.change_mg) as double) / count(people.change_mg)
    end as paired_change_mg
  from patient_diet_months as people
  group by people.as_of, people.series
),
spreads as (
  select
    people.as_of,
    people.series,
    cast(sum(cast(power(cast(people.mean_mg as double) - means.mean_mg, 2) as decimal(32, 6))) as double)
      as square_sum,
    cast(sum(cast(power(cast(people.change_mg as double) - means.paired_change_mg, 2) as decimal(32, 6))) as double)
      as paired_square_sum
  from patient_diet_months as people
  join means on means.as_of = people.as_of and means.series = people.series
  group by people.as_of, people.series
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
