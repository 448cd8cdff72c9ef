-- What another window of diet is tried on: of each patient and as-of date the days since each record of the last 12 months in the
-- series that speaks, latest first, and the mean sodium from the latest back to that record. The series whose latest record is
-- the later speaks whatever the window, so a window only says how far back the mean goes.
-- Lists are a construct of this engine.
with records as (
  select
    d.patient_id,
    d.as_of,
    cast(date_diff('day', r.day, d.as_of) as smallint) as days,
    r.sodium_mg,
    row_number() over (partition by d.patient_id, d.as_of order by r.day desc, r.import_id, r.line) as place
  from diet_at as d
  join as_of_windows as w on w.as_of = d.as_of
  join sodium_records as r
    on r.patient_id = d.patient_id and r.series = d.sodium_in_year_series and r.day <= d.as_of and r.day > w.year_after
),
means as (
  select
    records.*,
    cast(sum(records.sodium_mg) over (
      partition by records.patient_id, records.as_of order by records.place rows between unbounded preceding and current row
    ) as double) / records.place as mean_mg
  from records
)
select
  means.patient_id,
  means.as_of,
  list(means.days order by means.place) as sodium_days,
  list(means.mean_mg order by means.place) as sodium_means
from means
group by means.patient_id, means.as_of
