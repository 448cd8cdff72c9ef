-- Estimates the glomerular filtration rate of an adult from serum cystatin C alone (CKD-EPI 2012 cystatin C).
-- The published rounding of the age base is 0.996; copies with 0.9962 give about 1 unit more at age 80.
-- shape: cystatin_mg_l number mg/L (0.1 to 15, ERM-DA471 traceable), age_years whole years (18 to 120), sex 'female' or 'male'
--   -> DOUBLE mL/min/1.73 m2, not rounded
-- absent: null when a value is missing, age is under 18, cystatin C is not above 0 or sex is anything else
-- throws: nothing
-- source: Inker 2012, Estimating glomerular filtration rate from serum creatinine and cystatin C,
--   N Engl J Med 367:20-29, Table 2 (CKD-EPI cystatin C), doi:10.1056/NEJMoa1114248
--   [read: kidney.org, equation page; the citation in the manual of the R package nephro]
-- example: egfr_cystatin_2012(1.4, 60, 'female') = 46.3525
create or replace macro egfr_cystatin_2012(cystatin_mg_l, age_years, sex) as
  case
    when age_years >= 18 and cystatin_mg_l > 0 and sex in ('female', 'male') then
      133 * power(least(cystatin_mg_l / 0.8, 1), -0.499) * power(greatest(cystatin_mg_l / 0.8, 1), -1.328)
        * power(0.996, age_years) * case sex when 'female' then 0.932 else 1 end
  end;
