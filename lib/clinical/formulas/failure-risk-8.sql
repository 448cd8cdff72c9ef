-- Estimates the share of people like this one who reach kidney failure within 2 or 5 years, from age, sex, eGFR, ACR and
-- four blood values. For 'other' the 5-year baseline lies below that of the four-variable equation; it is so in the source.
-- shape: age_years whole years (18 to 120), sex 'female' or 'male', egfr mL/min/1.73 m2 (above 0, meant for under 60),
--   acr_mg_g mg/g (above 0), albumin_g_dl g/dL (1 to 6), phosphate_mg_dl mg/dL (1 to 12), bicarbonate_mmol_l mmol/L (5 to 45),
--   calcium_mg_dl mg/dL (5 to 15), region 'north_america' or 'other', years 2 or 5 -> DOUBLE share 0 to 1, not rounded
-- absent: null when a value is missing, age is under 18, eGFR or ACR is not above 0, or sex, region or years is anything else
-- throws: nothing
-- source: Tangri 2011, A predictive model for progression of chronic kidney disease to kidney failure, JAMA 305:1553-1559,
--   eight-variable equation (coefficients and centring), doi:10.1001/jama.2011.451; Tangri 2016, Multinational assessment of accuracy of
--   equations for predicting risk of kidney failure, JAMA 315:164-174 (baseline survival by region), doi:10.1001/jama.2015.18202
--   [read: documentation and source of the Python library kfre]
-- example: failure_risk_8(60, 'male', 30, 300, 4.0, 3.9, 25, 9.4, 'other', 5) = 0.209093
create or replace macro failure_risk_8(
  age_years, sex, egfr, acr_mg_g, albumin_g_dl, phosphate_mg_dl, bicarbonate_mmol_l, calcium_mg_dl, region, years
) as
  case
    when age_years >= 18 and egfr > 0 and acr_mg_g > 0 and sex in ('female', 'male') then
      1 - power(
        case
          when region = 'north_america' and years = 2 then 0.9780
          when region = 'north_america' and years = 5 then 0.9301
          when region = 'other' and years = 2 then 0.9827
          when region = 'other' and years = 5 then 0.9245
        end,
        exp(
          -0.1992 * (cast(age_years as double) / 10 - 7.036)
          + 0.1602 * (case sex when 'male' then 1 else 0 end - 0.5642)
          - 0.4919 * (cast(egfr as double) / 5 - 7.222)
          + 0.3364 * (ln(cast(acr_mg_g as double)) - 5.137)
          - 0.3441 * (cast(albumin_g_dl as double) - 3.997)
          + 0.2604 * (cast(phosphate_mg_dl as double) - 3.916)
          - 0.07354 * (cast(bicarbonate_mmol_l as double) - 25.57)
          - 0.2228 * (cast(calcium_mg_dl as double) - 9.355)
        )
      )
  end;
