-- The latest eGFR, urine result and ACR of each patient on each as-of date, however old, so that another window needs no other
-- facts.
with egfr as (
  select e.patient_id, w.as_of, e.egfr, e.day as egfr_on, e.run_started_on
  from egfr_days as e
  join as_of_windows as w
    on e.day <= w.as_of and (e.next_day is null or e.next_day > w.as_of)
),
-- The result that speaks for a day: ACR before PCR, then the latest instant, then the higher value.
urine_days as (
  select
    u.*,
    row_number() over (
      partition by u.patient_id, u.day
      order by case when u.test = 'uacr' then 0 else 1 end, u.collected_epoch desc, u.value_mg_g desc,
        case u.comparator when '>' then 0 when '<' then 2 else 1 end, u.import_id, u.line
    ) as place
  from urine_results as u
),
urine_ranges as (
  select
    d.*,
    lead(d.day) over (partition by d.patient_id order by d.day) as next_day
  from urine_days as d
  where d.place = 1
),
urine as (
  select
    u.patient_id,
    w.as_of,
    u.day as urine_on,
    u.test as urine_test,
    u.a,
    u.a_kdigo,
    u.a_ada,
    case
      when u.a = 'A1' then 'none'
      when u.needs_no_repeat or u.confirmed_by_day > w.confirmation_after then 'confirmed'
      else 'raised once'
    end as albuminuria
  from urine_ranges as u
  join as_of_windows as w on u.day <= w.as_of and (u.next_day is null or u.next_day > w.as_of)
),
acr_ranges as (
  select
    d.*,
    lead(d.day) over (partition by d.patient_id order by d.day) as next_day
  from urine_days as d
  where d.place = 1 and d.test = 'uacr'
),
acr as (
  select
    u.patient_id,
    w.as_of,
    u.value_mg_g as acr,
    u.comparator as acr_comparator,
    u.day as acr_on
  from acr_ranges as u
  join as_of_windows as w on u.day <= w.as_of and (u.next_day is null or u.next_day > w.as_of)
)
select
  d.patient_id,
  d.as_of,
  egfr.egfr,
  egfr.egfr_on,
  egfr.run_started_on,
  -- A run is dated only where the eGFR is under 60.
  coalesce(egfr.run_started_on <= egfr.egfr_on - 90, false) as is_egfr_chronic,
  acr.acr,
  acr.acr_comparator,
  acr.acr_on,
  urine.a,
  urine.a_kdigo,
  urine.a_ada,
  urine.urine_on,
  urine.urine_test,
  urine.albuminuria
from patient_days as d
left join egfr on egfr.patient_id = d.patient_id and egfr.as_of = d.as_of
left join urine on urine.patient_id = d.patient_id and urine.as_of = d.as_of
left join acr on acr.patient_id = d.patient_id and acr.as_of = d.as_of
