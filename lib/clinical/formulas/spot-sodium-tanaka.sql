-- Estimates the sodium of 24 hours from one casual urine (Tanaka). Meant for group means, not for one person, and never
-- validated at low eGFR: it is shown as an estimate only and enters no mean and no trend.
-- shape: sodium_mmol_l mmol/L and creatinine_mg_dl mg/dL of the spot urine (above 0), age_years whole years (18 to 120),
--   weight_kg kg, height_cm cm -> DOUBLE mmol per 24 hours
-- absent: null when a value is missing, a measurement is not above 0 or the predicted creatinine is not above 0
-- throws: nothing
-- source: Tanaka 2002, A simple method to estimate populational 24-h urinary sodium and potassium excretion using a casual
--   urine specimen, J Hum Hypertens 16:97-103, abstract, doi:10.1038/sj.jhh.1001307
--   [read: abstract, PubMed 11850766]
-- example: spot_sodium_tanaka(120, 120, 50, 80, 175) = 163.40
create or replace macro spot_sodium_tanaka(sodium_mmol_l, creatinine_mg_dl, age_years, weight_kg, height_cm) as
  case
    when sodium_mmol_l > 0 and creatinine_mg_dl > 0
      and -2.04 * age_years + 14.89 * weight_kg + 16.14 * height_cm - 2244.45 > 0 then
      21.98 * power(
        cast(sodium_mmol_l as double) / (cast(creatinine_mg_dl as double) * 10)
          * (-2.04 * age_years + 14.89 * weight_kg + 16.14 * height_cm - 2244.45),
        0.392)
  end;
