-- Estimates the share of people like this one who reach kidney failure within 2 or 5 years, from age, sex, eGFR and ACR.
-- shape: age_years whole years (18 to 120), sex 'female' or 'male', egfr mL/min/1.73 m2 (above 0, meant for under 60),
--   acr_mg_g mg/g (above 0), region 'north_america' or 'other', years 2 or 5 -> DOUBLE share 0 to 1, not rounded
-- absent: null when a value is missing, age is under 18, eGFR or ACR is not above 0, or sex, region or years is anything else
-- throws: nothing
-- source: Tangri 2011, A predictive model for progression of chronic kidney disease to kidney failure, JAMA 305:1553-1559,
--   four-variable equation (coefficients and centring), doi:10.1001/jama.2011.451; Tangri 2016, Multinational assessment of accuracy of
--   equations for predicting risk of kidney failure, JAMA 315:164-174 (baseline survival by region), doi:10.1001/jama.2015.18202
--   [read: documentation and source of the Python library kfre]
-- example: failure_risk_4(60, 'male', 30, 300, 'north_america', 2) = 0.086327
create or replace macro failure_risk_4(age_years, sex, egfr, acr_mg_g, region, years) as
  case
    when age_years >= 18 and egfr > 0 and acr_mg_g > 0 and sex in ('female', 'male') then
      1 - power(
        case
          when region = 'north_america' and years = 2 then 0.9750
          when region = 'north_america' and years = 5 then 0.9240
          when region = 'other' and years = 2 then 0.9832
          when region = 'other' and years = 5 then 0.9365
        end,
        exp(
          -0.2201 * (cast(age_years as double) / 10 - 7.036)
          + 0.2467 * (case sex when 'male' then 1 else 0 end - 0.5642)
          - 0.5567 * (cast(egfr as double) / 5 - 7.222)
          + 0.4510 * (ln(cast(acr_mg_g as double)) - 5.137)
        )
      )
  end;
