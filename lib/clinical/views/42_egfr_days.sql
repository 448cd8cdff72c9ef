-- One eGFR per patient and day: from the mean of the day's usable creatinines; else from the usable reported values of the day.
-- With it the first day of the unbroken run of days under 60 that it belongs to.
with creatinine_days as (
  select
    r.patient_id,
    r.day,
    egfr_creatinine_2021(
      cast(sum(r.value) as double) / count(*) / 88.4,
      whole_years(people.birth_date, r.day),
      people.sex
    ) as egfr
  from filtration_results as r
  join people on people.patient_id = r.patient_id
  where r.test = 'creatinine' and r.is_usable
    and people.sex in ('female', 'male')
    and whole_years(people.birth_date, r.day) >= 18
  group by r.patient_id, r.day, people.birth_date, people.sex
),
reported_days as (
  select
    r.patient_id,
    r.day,
    cast(sum(r.value) as double) / count(*) as egfr
  from filtration_results as r
  join people on people.patient_id = r.patient_id
  where r.test = 'egfr' and r.is_usable and r.comparator is null
    and whole_years(people.birth_date, r.day) >= 18
  group by r.patient_id, r.day
),
days as (
  select patient_id, day, egfr, 'creatinine' as source from creatinine_days
  union all
  select reported_days.patient_id, reported_days.day, reported_days.egfr, 'reported' as source
  from reported_days
  left join creatinine_days
    on creatinine_days.patient_id = reported_days.patient_id and creatinine_days.day = reported_days.day
  where creatinine_days.day is null
),
rounded as (
  select days.patient_id, days.day, days.source, cast(round_half_up(days.egfr) as integer) as egfr
  from days
),
runs as (
  select
    rounded.*,
    sum(case when egfr >= 60 then 1 else 0 end) over (
      partition by patient_id order by day rows between unbounded preceding and current row
    ) as run
  from rounded
)
select
  runs.patient_id,
  runs.day,
  runs.source,
  runs.egfr,
  case
    when runs.egfr < 60
      then min(case when runs.egfr < 60 then runs.day end) over (partition by runs.patient_id, runs.run)
  end as run_started_on,
  lead(runs.day) over (partition by runs.patient_id order by runs.day) as next_day
from runs
