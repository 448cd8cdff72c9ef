-- Each patient's mean sodium and potassium on each as-of date, from the series whose latest record is the later.
with series as (
  select
    r.patient_id,
    w.as_of,
    r.series,
    max(r.day) as latest_on,
    cast(sum(r.sodium_mg) as double) / count(*) as sodium_mg,
    case
      when count(r.potassium_mg) > 0 then cast(sum(r.potassium_mg) as double) / count(r.potassium_mg)
    end as potassium_mg,
    cast(count(*) as integer) as records
  from sodium_records as r
  join as_of_windows as w on r.day <= w.as_of and r.day > w.diet_after
  group by r.patient_id, w.as_of, r.series
),
placed as (
  select
    series.*,
    row_number() over (
      partition by patient_id, as_of
      order by latest_on desc,
        case series.series when '24-hour urine' then 0 when 'counted days' then 1 else 2 end
    ) as place
  from series
)
select patient_id, as_of, series as sodium_series, latest_on as sodium_on, sodium_mg, potassium_mg, records as sodium_records
from placed
where place = 1
