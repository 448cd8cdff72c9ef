-- Estimates the sodium of 24 hours from one casual urine (INTERSALT, the form with potassium). It pulls everyone towards
-- the middle and was never validated at low eGFR: it is shown as an estimate only and enters no mean and no trend.
-- shape: sodium_mmol_l and potassium_mmol_l mmol/L, creatinine_mg_dl mg/dL of the spot urine (above 0; the equation's own
--   mmol/L are 0.0884 times as many), age_years whole years (18 to 120), weight_kg kg, height_cm cm, sex 'female' or 'male'
--   -> DOUBLE mmol per 24 hours
-- absent: null when a value is missing, a measurement is not above 0 or sex is anything else
-- throws: nothing
-- source: Brown 2013, Estimating 24-hour urinary sodium excretion from casual urinary sodium concentrations in Western
--   populations: the INTERSALT study, Am J Epidemiol 177:1180-1192, equations with potassium, doi:10.1093/aje/kwt066
--   [the citation read: PMC3664342; the coefficients from memory]
-- example: spot_sodium_intersalt(120, 50, 120, 50, 80, 175, 'male') = 165.09
create or replace macro spot_sodium_intersalt(
  sodium_mmol_l, potassium_mmol_l, creatinine_mg_dl, age_years, weight_kg, height_cm, sex
) as
  case
    when sodium_mmol_l > 0 and potassium_mmol_l > 0 and creatinine_mg_dl > 0 and height_cm > 0 and sex = 'male' then
      25.46 + 0.46 * sodium_mmol_l - 2.75 * 0.0884 * cast(creatinine_mg_dl as double) - 0.13 * potassium_mmol_l
        + 4.10 * (cast(weight_kg as double) / power(height_cm / 100, 2)) + 0.26 * age_years
    when sodium_mmol_l > 0 and potassium_mmol_l > 0 and creatinine_mg_dl > 0 and height_cm > 0 and sex = 'female' then
      5.07 + 0.34 * sodium_mmol_l - 2.16 * 0.0884 * cast(creatinine_mg_dl as double) - 0.09 * potassium_mmol_l
        + 2.39 * (cast(weight_kg as double) / power(height_cm / 100, 2)) + 2.35 * age_years - 0.03 * age_years * age_years
  end;
