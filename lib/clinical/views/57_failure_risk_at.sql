-- The four-variable risk of kidney failure within 2 and 5 years, for a latest eGFR under 60, however old: with the latest ACR above
-- 0 that is dated near enough to that eGFR. A comparator enters as its number. Nobody on dialysis or with a transplant has one.
with at_risk as (
  select k.patient_id, k.as_of, k.egfr, k.egfr_on
  from latest_kidney_at as k
  left join conditions_at as c on c.patient_id = k.patient_id and c.as_of = k.as_of
  left join dialysis_visits_at as dialysis_visits
    on dialysis_visits.patient_id = k.patient_id and dialysis_visits.as_of = k.as_of
  where k.egfr < 60
    and not coalesce(c.has_dialysis_code, false)
    and not coalesce(c.transplant, false)
    and dialysis_visits.patient_id is null
),
acr_placed as (
  select
    u.patient_id,
    u.day,
    u.value_mg_g,
    row_number() over (
      partition by u.patient_id, u.day order by u.collected_epoch desc, u.value_mg_g desc
    ) as place
  from urine_results as u
  where u.test = 'uacr' and u.value_mg_g > 0
),
acr_days as (
  select acr_placed.patient_id, acr_placed.day, acr_placed.value_mg_g from acr_placed where acr_placed.place = 1
),
near as (
  select at_risk.patient_id, at_risk.as_of, max(acr_days.day) as acr_on
  from at_risk
  cross join settings as s
  join acr_days
    on acr_days.patient_id = at_risk.patient_id
    and acr_days.day <= at_risk.as_of
    and acr_days.day >= at_risk.egfr_on - s.kfre_max_gap_days
    and acr_days.day <= at_risk.egfr_on + s.kfre_max_gap_days
  group by at_risk.patient_id, at_risk.as_of
)
select
  at_risk.patient_id,
  at_risk.as_of,
  at_risk.egfr_on,
  acr_days.value_mg_g as risk_acr,
  near.acr_on as risk_acr_on,
  failure_risk_4(d.age_years, people.sex, at_risk.egfr, acr_days.value_mg_g, s.kfre_region, 2) as failure_risk_2_years,
  failure_risk_4(d.age_years, people.sex, at_risk.egfr, acr_days.value_mg_g, s.kfre_region, 5) as failure_risk_5_years
from near
cross join settings as s
join at_risk on at_risk.patient_id = near.patient_id and at_risk.as_of = near.as_of
join acr_days on acr_days.patient_id = near.patient_id and acr_days.day = near.acr_on
join people on people.patient_id = near.patient_id
join patient_days as d on d.patient_id = near.patient_id and d.as_of = near.as_of
