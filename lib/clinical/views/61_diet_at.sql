-- Each patient's mean sodium and potassium on each as-of date, from the series whose latest record is the later; and the sodium
-- that is held against the limit, which falls back on the same over the last 12 months.
with spans as (
  select w.as_of, 'recent' as span, w.diet_after as opens_after from as_of_windows as w
  union all
  select w.as_of, 'year', w.year_after from as_of_windows as w
),
series as (
  select
    r.patient_id,
    spans.as_of,
    spans.span,
    r.series,
    max(r.day) as latest_on,
    cast(sum(r.sodium_mg) as double) / count(*) as sodium_mg,
    case
      when count(r.potassium_mg) > 0 then cast(sum(r.potassium_mg) as double) / count(r.potassium_mg)
    end as potassium_mg,
    cast(count(*) as integer) as records
  from sodium_records as r
  join spans on r.day <= spans.as_of and r.day > spans.opens_after
  group by r.patient_id, spans.as_of, spans.span, r.series
),
placed as (
  select
    series.*,
    row_number() over (
      partition by patient_id, as_of, span
      order by latest_on desc,
        case series.series when '24-hour urine' then 0 when 'counted days' then 1 else 2 end
    ) as place
  from series
),
people_asked as (
  select distinct series.patient_id, series.as_of from series
)
select
  asked.patient_id,
  asked.as_of,
  recent.series as sodium_series,
  recent.latest_on as sodium_on,
  recent.sodium_mg,
  recent.potassium_mg,
  recent.records as sodium_records,
  coalesce(recent.sodium_mg, in_year.sodium_mg) as sodium_in_year_mg,
  coalesce(recent.series, in_year.series) as sodium_in_year_series,
  coalesce(recent.latest_on, in_year.latest_on) as sodium_in_year_on,
  coalesce(recent.records, in_year.records) as sodium_in_year_records
from people_asked as asked
left join placed as recent
  on recent.patient_id = asked.patient_id and recent.as_of = asked.as_of and recent.span = 'recent' and recent.place = 1
left join placed as in_year
  on in_year.patient_id = asked.patient_id and in_year.as_of = asked.as_of and in_year.span = 'year' and in_year.place = 1
