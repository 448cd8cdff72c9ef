-- Estimates the glomerular filtration rate of an adult from serum creatinine, without race (CKD-EPI 2021 creatinine).
-- shape: creatinine_mg_dl number mg/dL (0.1 to 30, IDMS traceable), age_years whole years (18 to 120), sex 'female' or 'male'
--   -> DOUBLE mL/min/1.73 m2, not rounded
-- absent: null when a value is missing, age is under 18, creatinine is not above 0 or sex is anything else
-- throws: nothing
-- source: Inker 2021, New creatinine- and cystatin C-based equations to estimate GFR without race,
--   N Engl J Med 385:1737-1749, equation eGFRcr from age and sex (coefficients as on kidney.org), doi:10.1056/NEJMoa2102953
--   [read: kidney.org, equation page; the citation in the manual of the R package nephro]
-- example: egfr_creatinine_2021(1.00, 50, 'female') = 68.6335
create or replace macro egfr_creatinine_2021(creatinine_mg_dl, age_years, sex) as
  case
    when age_years >= 18 and creatinine_mg_dl > 0 and sex = 'female' then
      142 * power(least(creatinine_mg_dl / 0.7, 1), -0.241) * power(greatest(creatinine_mg_dl / 0.7, 1), -1.200)
        * power(0.9938, age_years) * 1.012
    when age_years >= 18 and creatinine_mg_dl > 0 and sex = 'male' then
      142 * power(least(creatinine_mg_dl / 0.9, 1), -0.302) * power(greatest(creatinine_mg_dl / 0.9, 1), -1.200)
        * power(0.9938, age_years)
  end;
