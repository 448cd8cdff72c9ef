-- Estimates the glomerular filtration rate of an adult from creatinine and cystatin C, without race (CKD-EPI 2021 combined).
-- shape: creatinine_mg_dl number mg/dL (0.1 to 30), cystatin_mg_l number mg/L (0.1 to 15), age_years whole years (18 to 120),
--   sex 'female' or 'male' -> DOUBLE mL/min/1.73 m2, not rounded
-- absent: null when a value is missing, age is under 18, a measurement is not above 0 or sex is anything else
-- throws: nothing
-- source: Inker 2021, New creatinine- and cystatin C-based equations to estimate GFR without race,
--   N Engl J Med 385:1737-1749, equation eGFRcr-cys from age and sex, doi:10.1056/NEJMoa2102953
--   [read: egfr.app, equation page; the citation in the manual of the R package nephro]
-- example: egfr_creatinine_cystatin_2021(1.2, 1.4, 60, 'female') = 49.6263
create or replace macro egfr_creatinine_cystatin_2021(creatinine_mg_dl, cystatin_mg_l, age_years, sex) as
  case
    when age_years >= 18 and creatinine_mg_dl > 0 and cystatin_mg_l > 0 and sex = 'female' then
      135 * power(least(creatinine_mg_dl / 0.7, 1), -0.219) * power(greatest(creatinine_mg_dl / 0.7, 1), -0.544)
        * power(least(cystatin_mg_l / 0.8, 1), -0.323) * power(greatest(cystatin_mg_l / 0.8, 1), -0.778)
        * power(0.9961, age_years) * 0.963
    when age_years >= 18 and creatinine_mg_dl > 0 and cystatin_mg_l > 0 and sex = 'male' then
      135 * power(least(creatinine_mg_dl / 0.9, 1), -0.144) * power(greatest(creatinine_mg_dl / 0.9, 1), -0.544)
        * power(least(cystatin_mg_l / 0.8, 1), -0.323) * power(greatest(cystatin_mg_l / 0.8, 1), -0.778)
        * power(0.9961, age_years)
  end;
