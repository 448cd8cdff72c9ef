-- Estimates the sodium of 24 hours from the second morning urine (Kawasaki). It reads high in most comparisons and was
-- never validated at low eGFR: it is shown as an estimate only and enters no mean and no trend.
-- shape: sodium_mmol_l mmol/L and creatinine_mg_dl mg/dL of the spot urine (above 0), age_years whole years (18 to 120),
--   weight_kg kg, height_cm cm, sex 'female' or 'male' -> DOUBLE mmol per 24 hours
-- absent: null when a value is missing, a measurement or the predicted creatinine is not above 0 or sex is anything else
-- throws: nothing
-- source: Kawasaki 1993, A simple method for estimating 24 h urinary sodium and potassium excretion from second morning
--   voiding urine specimen in adults, Clin Exp Pharmacol Physiol 20:7-14, doi:10.1111/j.1440-1681.1993.tb01496.x
--   [the numbers read in a later comparison; their signs from memory]
-- example: spot_sodium_kawasaki(120, 120, 50, 80, 175, 'male') = 218.17
create or replace macro spot_sodium_kawasaki(sodium_mmol_l, creatinine_mg_dl, age_years, weight_kg, height_cm, sex) as
  case
    when sodium_mmol_l > 0 and creatinine_mg_dl > 0 and sex = 'male'
      and 15.12 * weight_kg + 7.39 * height_cm - 12.63 * age_years - 79.9 > 0 then
      16.3 * sqrt(
        cast(sodium_mmol_l as double) / (cast(creatinine_mg_dl as double) * 10)
          * (15.12 * weight_kg + 7.39 * height_cm - 12.63 * age_years - 79.9))
    when sodium_mmol_l > 0 and creatinine_mg_dl > 0 and sex = 'female'
      and 8.58 * weight_kg + 5.09 * height_cm - 4.72 * age_years - 74.95 > 0 then
      16.3 * sqrt(
        cast(sodium_mmol_l as double) / (cast(creatinine_mg_dl as double) * 10)
          * (8.58 * weight_kg + 5.09 * height_cm - 4.72 * age_years - 74.95))
  end;
