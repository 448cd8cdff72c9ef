-- Estimates the ACR that goes with a PCR (adjusted equation). It may stand in for a missing ACR where a risk is shown and
-- labelled "estimated from PCR"; it never decides a urine category, for which the PCR has its own limits.
-- shape: pcr_mg_g mg/g (above 0, up to 50,000), sex 'female' or 'male', has_diabetes and has_hypertension BOOLEAN
--   -> DOUBLE mg/g, not rounded
-- absent: null when a value is missing, PCR is not above 0 or sex is anything else
-- throws: nothing
-- source: Sumida 2020, Conversion of urine protein-creatinine ratio or urine dipstick protein to urine albumin-creatinine
--   ratio for use in chronic kidney disease screening and prognosis, Ann Intern Med 173:426-435, adjusted model,
--   doi:10.7326/M20-0529
--   [read: source of the Python library kfre and the R library tabletools]
-- example: pcr_to_acr(500, 'male', false, true) = 219.73
create or replace macro pcr_to_acr(pcr_mg_g, sex, has_diabetes, has_hypertension) as
  case
    when pcr_mg_g > 0 and sex in ('female', 'male') then
      exp(
        5.2659
        + 0.2934 * ln(least(cast(pcr_mg_g as double) / 50, 1))
        + 1.5643 * ln(greatest(least(cast(pcr_mg_g as double) / 500, 1), 0.1))
        + 1.1109 * ln(greatest(cast(pcr_mg_g as double) / 500, 1))
        - 0.0773 * case sex when 'female' then 1 else 0 end
        + 0.0797 * cast(cast(has_diabetes as boolean) as integer)
        + 0.1265 * cast(cast(has_hypertension as boolean) as integer)
      )
  end;
